// In: what was done, is being done, or must be decided. Out: it is said, once, to those who see and those who hear.
import { faultOf, madePath, post } from './ask.js';
import { byId, faultBox, h, lines, p, row } from './dom.js';
import { called, t } from './texts.js';

export * from './ask.js';
export * from './dom.js';
export * from './texts.js';

/// What all pages share: the shop, and how the open page is read again.
export const desk = { shop: {}, again: async () => {} };
/// Each page by the first word of its address: { name } → its title and its content. Their modules put them here.
export const pages = {};

const region = byId('say');
const line = byId('act');

export function say(text) {
  region.textContent = '';
  setTimeout(() => (region.textContent = text), 60);  // the same words twice are said twice
}

export const madeLink = (folder, name, text = name, kind = 'number') => h(`a.${kind}`, { href: madePath(folder, name), download: name, dir: text === name && 'ltr' }, text);

/// No second press meanwhile, and after one second it is said what is being done.
export async function busy(button, doing, work) {
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
/// A button that does its work by itself; and one that gives a form: h('form', given(work), …, giver(…)).
export const press = (text, work, kind = null, id = null, doing = t`doing`) =>
  h('button', { type: 'button', class: kind, id, on: { click: (event) => busy(event.currentTarget, doing, work) } }, text);
export const giver = (text, kind = null, id = null) => h('button', { class: kind, id }, text);
const filledIn = (form) => Object.fromEntries(new FormData(form));
export const given = (work, doing = t`doing`) => ({ on: { submit: (event) => {
  event.preventDefault();
  busy(event.submitter, doing, () => work(filledIn(event.target)));
} } });
/// Runs the last that it is given, after a rest.
export function afterRest(rest, work) {
  let waiting = 0;
  return (...given) => {
    clearTimeout(waiting);
    waiting = setTimeout(work, rest, ...given);
  };
}

export const spokenFault = ({ what, why, mend }) => [what, why, mend].filter(Boolean).join('. ');

function show(...content) {
  const hadFocus = line.contains(document.activeElement);
  line.replaceChildren(...content, h('button', { on: { click: hush } }, t`act.close`));
  line.hidden = false;
  if (hadFocus) line.querySelector('button').focus();
}
export function hush() {
  if (line.contains(document.activeElement)) byId('main').focus();
  line.hidden = true;
  line.replaceChildren();
}
export function showFault(error) {
  const fault = faultOf(error);
  show(faultBox(fault));
  say(spokenFault(fault));
}

/// What a person must see after a quick act.
function toldOf({ account = {} }) {
  const held = (account.held ?? []).map((one) => `${one.shown || one.id}: ${spokenFault(one.fault)}`);
  return [...(account.told ?? []), ...(account.warnings ?? []), ...held];
}

/// A quiet line that says what was done, with its undo where the desk names one.
export function done(text, answer = {}, undo = [answer.undo].filter(Boolean)) {
  const told = toldOf(answer);
  const content = [p(text)];
  if (told.length) content.push(lines(told));
  if (answer.account?.sheets > 0) content.push(p(h('a', { href: '#/sheets' }, t`work.to_sheets`)));
  if (undo.length) content.push(press(t`undo`, () => takeBack(undo, t('undo.done', { what: text }))));
  show(...content);
  say([text, ...(answer.account?.warnings ?? []), undo.length && t`undo.offered`].filter(Boolean).join(' '));
}

async function takeBack(subjects, text) {
  let answer;
  for (const subject of subjects) answer = await post('undo', { subject });
  await desk.again();
  done(text, answer, []);
}
export const undoLast = (item) => takeBack([item.number ?? item], t('undo.last.done', { item }));

/// Asks the desk for a change, reads the page again, and says what was done.
export async function change(path, ask, text) {
  const answer = await post(path, ask);
  await desk.again();
  done(text, answer);
}
export const correct = (item, what, value = '', name = what) =>
  change('correct', { item: called(item), what, value }, t(`act.${name}.done`, { item, piece: value }));

/// A question, where material would be lost. Answers what was filled in, or null where it is called off.
export function question(title, text, yes, fields = [], kind = 'grave') {
  return new Promise((answer) => {
    let chosen = null;
    const form = h('form', h('h2', title), h('p', { id: 'question-text' }, text), fields,
      row(giver(yes, kind), h('button', { type: 'button', autofocus: !fields.length, on: { click: () => dialog.close() } }, t`question.no`)));
    const dialog = h('dialog', { 'aria-label': title, 'aria-describedby': 'question-text' }, form);
    form.addEventListener('submit', (event) => {
      event.preventDefault();
      chosen = filledIn(form);
      dialog.close();
    });
    dialog.addEventListener('close', () => {
      dialog.remove();
      answer(chosen);
    });
    document.body.append(dialog);
    dialog.showModal();
  });
}
