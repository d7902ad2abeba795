// In: a path of the desk, and what is asked of it. Out: the answer, or a Fault that a person can read. Never: changes the page.
import { t } from './texts.js';

const key = document.querySelector('meta[name="desk-key"]').content;

/// What, where, why and the mend, each a text; `answer` has all that came.
export class Fault extends Error {
  constructor(fault, answer = {}) {
    super(fault.what);
    Object.assign(this, { fault, answer });
  }
}
export const isAbort = (error) => error?.name === 'AbortError';

/// A press that may reach the desk twice bears the same word both times, so that it is done once.
function newOnce() {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  return Array.from(bytes, (byte) => byte.toString(16).padStart(2, '0')).join('');
}

const silent = () => new Fault({ what: t('fault.silent'), where: '', why: '', mend: t('fault.silent.mend') });

async function reach(path, request, tries) {
  for (;;) {
    try {
      return await fetch(path, request);
    } catch (error) {
      if (isAbort(error)) throw error;
      if (--tries < 1) throw silent();
      await new Promise((resume) => setTimeout(resume, 500));
    }
  }
}

async function answered(response) {
  const isJson = (response.headers.get('content-type') ?? '').includes('json');
  if (!isJson) {
    const text = (await response.text()).trim();
    const unknown = response.status === 401 || response.status === 403;
    throw new Fault({ what: t(unknown ? 'fault.closed' : 'fault.refused'), where: '', why: unknown ? '' : text.slice(0, 400),
      mend: t(unknown ? 'fault.closed.mend' : 'fault.refused.mend') });
  }
  const answer = await response.json();
  if (response.status === 422 || !response.ok) throw new Fault(answer.fault ?? { what: t('fault.refused') }, answer);
  return answer;
}

const address = (path, query) => {
  const words = new URLSearchParams(query).toString();
  return `/api/${path}${words && `?${words}`}`;
};

export async function get(path, query = {}, signal = undefined) {
  return answered(await reach(address(path, query), { headers: { 'desk-key': key }, signal }, 2));
}

/// Asks for a change; sent again once where the first did not reach the desk.
export async function post(path, ask) {
  const headers = { 'desk-key': key, 'content-type': 'application/json', 'desk-once': newOnce() };
  return answered(await reach(address(path), { method: 'POST', headers, body: JSON.stringify(ask) }, 2));
}

/// Asks what would be, and changes nothing.
export async function wonder(path, ask, signal) {
  const headers = { 'desk-key': key, 'content-type': 'application/json' };
  return answered(await reach(address(path), { method: 'POST', headers, body: JSON.stringify(ask), signal }, 1));
}

/// Sends a file's bytes; where `changes`, what stands in it is taken in.
export async function sendFile(path, file, changes) {
  const headers = { 'desk-key': key, 'content-type': 'application/octet-stream' };
  if (changes) headers['desk-once'] = newOnce();
  return answered(await reach(address(path, { name: file.name }), { method: 'POST', headers, body: file }, changes ? 2 : 1));
}

export const fileLink = (sheet, name) => `/file?${new URLSearchParams({ sheet, name })}`;
