// In: a path of the desk, and what is asked. Out: the answer, or a Fault that a person can read. Never: changes the page.
import { t } from './texts.js';

const key = document.querySelector('meta[name="desk-key"]').content;

/// An error that a person can read, and all that came with it.
const refusal = (fault, answer = {}) => Object.assign(new Error(fault.what), { fault, answer });
export const faultOf = error =>
  error.fault ?? { what: t`fault.page`, why: String(error.message ?? error), mend: t`fault.page.mend` };

export const pause = time => new Promise(resume => setTimeout(resume, time));

async function reach(path, request, tries) {
  for (;;) {
    try {
      return await fetch(path, request);
    } catch {
      if (--tries < 1) throw refusal({ what: t`fault.silent`, mend: t`fault.silent.mend` });
      await pause(500);
    }
  }
}

async function answered(response) {
  if (!response.headers.get('content-type')?.includes('json')) {
    const text = (await response.text()).trim();
    const unknown = [401, 403].includes(response.status), name = unknown ? 'fault.closed' : 'fault.refused';
    throw refusal({ what: t(name), why: unknown ? '' : text.slice(0, 400), mend: t(`${name}.mend`) });
  }
  const answer = await response.json();
  if (!response.ok) throw refusal(answer.fault ?? { what: t`fault.refused` }, answer);
  return answer;
}

const address = (path, query) => `/api/${path}?${new URLSearchParams(query)}`;

export const get = async (path, query) => answered(await reach(address(path, query), { headers: { 'desk-key': key } }, 2));

async function send(where, body, changes, signal) {
  const headers = { 'desk-key': key, 'content-type': `application/${typeof body === 'string' ? 'json' : 'octet-stream'}` };
  // What may reach the desk twice bears one word, so that it is done once.
  if (changes) headers['desk-once'] = crypto.randomUUID().replaceAll('-', '');
  return answered(await reach(where, { method: 'POST', headers, body, signal }, changes ? 2 : 1));
}
/// Asks for a change, twice where the first did not reach the desk.
export const post = (path, ask) => send(address(path), JSON.stringify(ask), true);

/// Asks what would be.
export const wonder = (path, ask) => send(address(path), JSON.stringify(ask), false, AbortSignal.timeout(15_000));

/// One request at a time; of those that wait only the last is sent: answers come in their order.
export function inTurn(path, show) {
  let next = null, isAsking = false;
  return async ask => {
    next = ask;
    if (isAsking) return;
    isAsking = true;
    while (next) {
      const now = next;
      next = null;
      const answer = await wonder(path, now).catch(error => ({ ...error.answer, fault: faultOf(error) }));
      show(answer, next === null);
    }
    isAsking = false;
  };
}

/// Where `changes`, what stands in the file is taken in.
export const sendFile = (path, file, changes, more) => send(address(path, { name: file.name, ...more }), file, changes);

export const filePath = query => `/file?${new URLSearchParams(query)}`;
