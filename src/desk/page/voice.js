// In: what was done, is being done, or must be decided. Out: it is said, once, to those who see and those who hear.
import { faultOf, get, filePath, pause, post } from './ask.js';
import { accountBox, byId, faultBox, field, fill, folded, h, input, lines, p, row, said } from './dom.js';
import { called, named, t } from './texts.js';

export * from './ask.js';
export * from './dom.js';
export * from './texts.js';

/// The shop, and how the open page is read again.
export const desk = { shop: {}, again: async () => {} };
/// By the first word of the address: { name } → [title, content]. Each module adds its own.
export const pages = {};

const region = byId('say'), line = byId('act');

export function say(text) {
  region.textContent = '';
  setTimeout(() => (region.textContent = text), 60);  // the same words twice are said twice
}

/// The pages of one chapter.
export const turns = (names, here) => row(names.map(name => h('a', { href: `#/${name}`, 'aria-current': name === here && 'page' }, t(`${name}.title`))));
export const madeLink = (folder, name, text = name, kind = 'number') => h(`a.${kind}`, { href: filePath({ folder, name }), download: name, dir: text === name && 'ltr' }, text);

/// No second press meanwhile; after one second it is said what is being done.
async function busy(button, doing, work) {
  if (button.getAttribute('aria-disabled') === 'true') return;
  button.setAttribute('aria-disabled', 'true');
  const note = h('span.doing', doing);
  const late = setTimeout(() => {
    button.after(note);
    say(doing);
  }, 1000);
  try {
    await work();
  } catch (error) {
    showFault(error);
  } finally {
    clearTimeout(late);
    note.remove();
    button.removeAttribute('aria-disabled');
  }
}
/// Does its work by itself. Of a form: h('form', given(work), …, giver(…)).
export const press = (text, work, kind = null, id = null, doing = t`doing`) =>
  h('button', { type: 'button', class: kind, id, onclick: event => busy(event.currentTarget, doing, work) }, text);
/// A paper, made anew and given out.
export const paper = (path, ask, text, id = path) => press(text, async () => {
  const answer = await post(path, ask), file = answer.account.files[0].split('/').pop();
  madeLink(path, file).click();
  done(t('loading.done', { file }), answer);
}, null, id);
export const giver = (text, kind = null, id = null) => h('button', { class: kind, id }, text);
const filledIn = form => Object.fromEntries(new FormData(form));
export const given = (work, doing = t`doing`) => ({ onsubmit: event => {
  event.preventDefault();
  busy(event.submitter, doing, () => work(filledIn(event.target)));
} });
export function afterRest(rest, work) {
  let waiting = 0;
  return (...given) => {
    clearTimeout(waiting);
    waiting = setTimeout(work, rest, ...given);
  };
}

/// Where a file is dropped or chosen.
export function slot(id, doing, work, texts = 'intake', accept = '.csv,.tsv,.txt,text/csv,text/plain') {
  const choose = input('file', { accept });
  const node = h('div.slot', [...field(id, t(`${texts}.choose`), choose, t(`${texts}.hint`)).childNodes]);
  const go = ([file]) => file && busy(choose, doing, () => work(file));
  const over = isOver => event => {
    event.preventDefault();
    node.classList.toggle('over', isOver);
  };
  choose.onchange = () => go(choose.files);
  node.ondragover = over(true);
  node.ondragleave = over(false);
  node.ondrop = event => {
    over(false)(event);
    go(event.dataTransfer.files);
  };
  return node;
}

export const spokenFault = ({ what, why, mend }) => [what, why, mend].filter(Boolean).join('. ');

function show(...content) {
  const hadFocus = line.contains(document.activeElement);
  fill(line, content, h('button', { onclick: hush }, t`act.close`));
  line.hidden = false;
  if (hadFocus) line.querySelector('button').focus();
}
export function hush() {
  if (line.contains(document.activeElement)) byId('main').focus();
  line.hidden = true;
  fill(line);
}
export function showFault(error) {
  const fault = faultOf(error);
  show(faultBox(fault));
  say(spokenFault(fault));
}

const toldOf = ({ told = [], warnings = [], held = [] } = {}) =>
  [...told, ...warnings, ...held.map(one => `${one.shown || one.id}: ${spokenFault(one.fault)}`)];

/// Says what was done, with its undo where the desk names one.
export function done(text, answer = {}, undo = [answer.undo].filter(Boolean)) {
  show(p(text), lines(toldOf(answer.account)), answer.account?.sheets > 0 && p(h('a', { href: '#/sheets' }, t`work.to_sheets`)),
    undo.length > 0 && press(t`undo`, () => takeBack(undo, t('undo.done', { what: text }))));
  say([text, ...(answer.account?.warnings ?? []), undo.length && t`undo.offered`].filter(Boolean).join(' '));
}

async function takeBack(subjects, text) {
  let answer;
  for (const subject of subjects) answer = await post('undo', { subject });
  await desk.again();
  done(text, answer, []);
}
export const undoLast = item => takeBack([item.number ?? item], t('undo.last.done', { item }));

export async function change(path, ask, text, again = desk.again) {
  const answer = await post(path, ask);
  await again();
  done(text, answer);
}
export const correct = (item, what, value = '', name = what) =>
  change('correct', { item: called(item), what, value }, t(`act.${name}.done`, { item, piece: value }));

/// Answers what was filled in, or null.
export function question(title, text, yes, fields = [], kind = 'grave') {
  return new Promise(answer => {
    let chosen = null;
    const form = h('form', { method: 'dialog', onsubmit: () => (chosen = filledIn(form)) }, h('h2', title), h('p', { id: 'question-text' }, text), fields,
      row(giver(yes, kind), h('button', { type: 'button', autofocus: !fields.length, onclick: () => dialog.close() }, t`question.no`)));
    const dialog = h('dialog', { 'aria-label': title, 'aria-describedby': 'question-text' }, form);
    dialog.onclose = () => {
      dialog.remove();
      answer(chosen);
    };
    document.body.append(dialog);
    dialog.showModal();
  });
}

// ---- work that takes its time ----
const bench = byId('work');
let watching = false;

const title = (work, part) => t(`work.${part}`, { kind: named('work.kind', work.kind) });
const count = work => t('work.count', work);

function showRunning(work) {
  let bar = bench.querySelector('progress');
  if (!bar) {
    bar = h('progress', { 'aria-labelledby': 'work-title' });
    fill(bench, h('h2', { id: 'work-title' }, title(work, 'running')), bar, p(),
      press(t`work.stop`, () => post('stop-work', {}), 'on-slate', 'work-stop', t`work.stopping`));
    bench.hidden = false;
  }
  if (work.all < 1) return;
  bar.max = work.all;
  bar.value = work.done;
  bar.nextSibling.textContent = count(work);
}

function showEnd(work) {
  const hadFocus = bench.contains(document.activeElement) || document.activeElement === document.body;
  const close = () => {
    bench.hidden = true;
    byId('main').focus();
  };
  const isDone = !work.fault && !work.stopped, text = title(work, work.stopped ? 'stopped' : isDone ? 'done' : 'failed');
  fill(bench, h('h2', { id: 'work-title', tabindex: -1 }, text),
    row(isDone && work.kind === 'proofs' && proofsLink('on-slate'),
      isDone && work.account?.sheets > 0 && h('a.on-slate', { href: '#/sheets' }, t`work.to_sheets`), h('button.on-slate', { onclick: close }, t`act.close`)),
    Object.assign(folded(t`work.account`, h('div.slip', work.fault && (work.stopped ? p(said(work.fault.mend)) : faultBox(work.fault)), accountBox(work.account))), { open: !['hours', 'plan'].includes(work.kind) }));  // those have a page of their own
  bench.hidden = false;
  say(`${text} ${(work.account?.told ?? []).slice(0, 3).join('. ')}`);
  if (hadFocus) bench.firstChild.focus();
}

async function watch(work) {
  if (watching) return;
  watching = true;
  let quarter = 0;
  try {
    while (work.running) {
      showRunning(work);
      const now = work.all > 0 ? Math.floor((4 * work.done) / work.all) : 0;
      if (now > quarter) say(count(work));
      quarter = Math.max(now, quarter);
      await pause(330);
      work = await get('work');
    }
    showEnd(work);
  } catch (error) {
    showEnd({ ...work, fault: faultOf(error) });
  } finally {
    watching = false;
  }
  await desk.again();
}

export const proofsLink = kind => madeLink('proofs', 'proofs.pdf', t`work.proofs`, kind);

export function watched(work) {
  say(title(work, 'running'));
  watch(work);
}
export const begin = async (path, ask) => watched(await post(path, ask));

export async function resumeWatching() {
  const work = await get('work');
  if (work.running) watch(work);
}
