// In: an export. Out: what its columns are; what would be taken in; then it is taken in.
import { accountBox, byId, desk, done, faultBox, faultOf, field, fill, h, hint, inTurn, leaf, leaves, list, mapped, named, numeral, p, pages, post, press, reasonLine, row, say, section, select, sendFile, slot, small, spokenFault, t, view, words } from './voice.js';

const roles = 'order text quantity design note name date line status'.split(' ');
const meanings = { label_words: 'words', label_notes: 'note', label_designs: 'design', label_others: 'other' };
let given = {};  // file; why, a fault

function openColumns(file, why) {
  given = { file, why };
  location.hash = '#/columns';
}

function table({ header, rows }) {
  const head = header.map(title => h('th', { scope: 'col' }, h('bdi', title), h('small')));
  const node = h('div.table', { tabindex: 0, role: 'region', 'aria-label': t`columns.rows` }, h('table', h('thead', h('tr', head)),
    h('tbody', rows.map(cells => h('tr', header.map((_, at) => h('td', { lang: '' }, h('bdi', cells[at]))))))));
  const mark = columns => head.forEach((cell, at) => {
    cell.lastChild.textContent = roles.filter(role => columns[role] === header[at]).map(role => named('columns', role)).join(', ');
  });
  return { node, mark };
}

const come = (trials, held) => {
  const good = trials.filter(one => !one.fault).length, others = trials.length - good + held.length;
  return [t('columns.come', { n: good }), others && t('account.held', { n: others })].filter(Boolean).join(' ');
};
const trial = ({ order, words: text, quantity, picture, fault }) => h(fault ? 'li.slip.held-slip' : 'li',
  picture && view(picture, t('fit.picture', { words: text })), p(numeral([order, quantity > 1 && ` × ${quantity}`])), words(text), faultBox(fault));
const outcome = ({ trials = [], held = [], notes, fault }) => [faultBox(fault) ?? p(come(trials, held)), list('rack', trials, trial), accountBox({ held, notes })];

function told(file, guess, head) {
  const names = [...new Set(guess.header)].filter(Boolean);
  const selects = Object.fromEntries(roles.map(role => [role, select(guess.columns[role], [
    ...(['order', 'text'].includes(role) && guess.columns[role] ? [] : [['', named('columns', 'none')]]), ...names])]));
  const labels = guess.labels.map(one => ({ ...one, select: select(one.meaning, Object.values(meanings).map(name => [name, name === 'words' ? t`columns.text` : t(`columns.as.${name}`)])) }));
  const labelPart = h('section', h('h3', t`columns.labels`), hint(t`columns.labels.hint`), h('div.pair', labels.map((one, at) =>
    (one.node = field(`label-${at}`, h('bdi', one.label), one.select, h('bdi', one.sample))))));
  const result = h('div.outcome');
  const { node, mark } = table(guess);
  const ask = () => {
    const columns = mapped(selects, one => one.value);
    for (const one of labels) one.node.hidden = one.column !== columns.text;
    const there = labels.filter(one => !one.node.hidden);
    labelPart.hidden = !there.length;
    const called = meaning => there.filter(one => one.select.value === meaning).map(one => one.label);
    return { file: guess.file, ...columns, ...mapped(meanings, called) };
  };
  const attempt = inTurn('try-columns', (answer, isLast) => {
    if (!isLast) return;
    fill(result, outcome(answer));
    say(answer.fault?.what ?? come(answer.trials, answer.held));
  });
  const changed = () => {
    mark(ask());
    attempt(ask());
  };
  const form = h('form', { onchange: changed }, section(t`columns.which`, h('div.pair', roles.map(role => field(`column-${role}`, named('columns', role), selects[role])))), labelPart);
  changed();
  const keep = press(t`columns.keep`, async () => {
    const answer = await post('keep-columns', ask());
    given = {};
    await lookFor(file, answer);
  }, 'main-act', 'keep-columns');
  return leaves(t`columns.title`, [head, section(t`columns.rows`, small(h('bdi', file.name)), node), form],
    section(t`columns.trials`, row(keep, h('a', { href: '#/today' }, t`intake.leave`)), result));
}

pages.columns = async () => {
  const { file, why } = given, head = [p(t`columns.about`), reasonLine(why?.what)];
  const choose = slot('columns-export', t`intake.looking`, chosen => {
    given = { file: chosen };
    return desk.again();
  });
  const page = fault => leaf(t`columns.title`, head, fault, choose);
  return file ? sendFile('columns', file, false).then(guess => told(file, guess, head), error => page(faultBox(faultOf(error)))) : page();
};

// ---- a part of the day ----
let kept = {};  // file, account, fault, isTaken
let place = null, isNew = false;

const send = (path, file, changes) =>
  sendFile(path, file, changes).then(({ account }) => ({ file, account }), error => ({ file, fault: faultOf(error) }));

async function lookAt(file) {
  kept = await send('look', file, false);
  renewAndGo();
  say(kept.fault ? kept.fault.what : t('intake.looked', { file: file.name }));
}

/// Where the columns are not known they are told first.
async function lookOrAsk(file) {
  if (isNew) return openColumns(file);
  await lookAt(file);
  if (/\bcolumns?\b/.test(kept.fault?.what)) openColumns(file, kept.fault);
}

async function lookFor(file, { account }) {
  history.pushState(null, '', '#/today');
  await desk.again();
  await lookAt(file);
  kept.account?.told.unshift(...account.told);
  renewAndGo();
}

async function takeIn() {
  const { file, account, fault } = await send('intake', kept.file, true);
  kept = fault ? { ...kept, fault } : { account, isTaken: true };
  if (!fault) await desk.again();
  renewAndGo();
  if (fault) say(spokenFault(fault));
  else done(t('intake.taken', { file: file.name }));
}

function forget() {
  kept = {};
  renew();
  byId('export').focus();
}

function result() {
  const { file, account, fault, isTaken } = kept;
  if (!account && !fault) return null;
  return h('div.slip',
    h('h3', { id: 'intake-result', tabindex: -1 }, t(!account ? 'intake.failed' : isTaken ? 'intake.was_taken' : 'intake.would')),
    file && small(h('bdi', file.name)), faultBox(fault), accountBox(account, 4),
    row(account && !isTaken && press(t`intake.take`, takeIn, 'main-act', 'take-in', t`intake.taking`),
      press(t(account && !isTaken ? 'intake.leave' : 'act.close'), forget)));
}

function renewAndGo() {
  renew();
  byId('intake-result')?.focus();
}
function renew() {
  fill(place, h('h2', t`intake.title`),
    slot('export', t`intake.looking`, lookOrAsk),
    row(press(t`columns.tell`, () => openColumns(kept.file), 'small', 'tell-columns')), result());
}

export function intake(hasNoItems) {
  isNew = hasNoItems;
  place = h('section');
  renew();
  return place;
}
