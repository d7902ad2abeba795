// In: how the workshop stands. Out: the day in its order: take the export in, mend what waits for a person, make the sheets.
import { get } from './ask.js';
import { called, choice, field, h, heading, hint, inLine, input, itemLink, itemPath, link, list, numeral, p, row, said, section, spread, words } from './dom.js';
import { intake } from './intake.js';
import { needsYes, release } from './item_acts.js';
import { questionSlip } from './questions.js';
import { setter, smallPlaque } from './setter.js';
import { longDate, named, t } from './texts.js';
import { change, correct, desk, done, giver, onGiven, press } from './voice.js';
import { begin } from './work.js';

const openMends = new Set();  // stay open when the page is read again

function mendForm(item) {
  const set = setter({ number: item.number, words: item.words, design: item.design || desk.shop.default_design, piece: item.piece || item.pinned, designs: desk.shop.designs });
  const save = press(t('item.save'), () => {
    openMends.delete(item.number);
    return correct(item, 'words', set.words(), t('item.saved', { item: called(item) }));
  }, { class: 'main-act', id: `mend-${item.number}` });
  return h('div', { class: 'mend-form' }, set.plaque, h('div', {}, set.fields, row(save), set.notes));
}

function mender(item) {
  const mend = h('details', {}, h('summary', {}, t('today.mend_here')));
  mend.addEventListener('toggle', () => {
    if (!mend.open) return void openMends.delete(item.number);
    openMends.add(item.number);
    if (!mend.querySelector('.mend-form')) mend.append(mendForm(item));
  });
  mend.open = openMends.has(item.number);
  return mend;
}

const heldItem = (item) => h('li', { class: 'slip held-slip' }, h('h4', {}, itemLink(item), ' ', h('bdi', { class: 'by' }, item.customer)),
  words(item.words), said(item.reason, 'p', 'reason'), item.note && h('p', { class: 'by' }, t('item.note'), ': ', h('bdi', {}, item.note)),
  item.held_by === 'person' ? row(release(item)) : item.held_by === 'question' ? hint(t('today.by_question')) : mender(item));

const heldRow = (one) => h('li', { class: 'slip' }, h('h4', { dir: 'ltr' }, one.name, ' ', h('span', { class: 'by' }, one.file)),
  said(one.reason, 'p', 'reason'), words(one.as_it_came, 'blockquote'), p(h('b', {}, t('mend'), ' '), said(one.mend)),
  row(press(t('row.let_go'), () => change('let-go', { row: one.name }, t('row.done', { row: one.name }), one.name))));

const need = (name, count, ...content) =>
  count > 0 && h('div', { class: 'need', id: `need-${name}` }, h('h3', {}, t(`today.${name}`), ' ', h('span', { class: 'count' }, String(count))), content);

/// Some items, each with a box to mark it, and what is done with those that are marked.
function markable(name, items, act, work) {
  const boxes = items.map((item) => choice({ type: 'checkbox', value: called(item) }, numeral(called(item)), inLine(item)));
  const marked = () => items.filter((_, at) => boxes[at].querySelector(':checked'));
  return need(name, items.length, hint(t(`today.${name}.hint`)), list('ruled', items.map((item, at) => h('li', {}, boxes[at], link('item', item.number, t('today.look'))))),
    row(press(act, () => (marked().length ? work(marked()) : done(t('today.none_chosen'))))));
}

const approvals = (unseen, asked) => [
  markable('unseen', unseen, t('today.proofs'), (some) => begin('proofs', { items: some.map(called), date: desk.shop.date })),
  markable('asked', asked, t('today.approve'),
    (some) => change('approve', { items: some.map(called) }, t('today.approved', { n: some.length }), some[0].number))];

function daySheets(count) {
  const date = input('date', { required: true, value: desk.shop.date });
  return section(t('today.sheets'), p(t(count ? 'today.ready' : 'today.none_waiting', { n: count })), count > 0 && onGiven(
    h('form', { class: 'day', id: 'day' }, field('day-date', t('today.date'), date), giver(t('today.make'), 'main-act big', 'make-day')),
    () => begin('day', { date: date.value })));
}

const fewest = 24;  // plaques shown before one asks for all

function rack(waiting) {
  const card = (item) => h('li', {}, h('a', { class: 'card', href: itemPath(item.number) }, smallPlaque(item), numeral(called(item)), inLine(item)));
  const cards = list('rack', waiting.slice(0, fewest).map(card));
  const more = waiting.length > fewest && press(t('today.all', { n: waiting.length }), () => {
    more.parentNode.remove();
    cards.append(...waiting.slice(fewest).map(card));
    cards.children[fewest].firstChild.focus();
  });
  return waiting.length > 0 && section(t('today.waiting'), cards, more && row(more));
}

const bench = (sheets) => sheets.length > 0 && section(t('today.bench'), list('ruled', sheets.map((sheet) =>
  h('li', {}, link('sheet', sheet.name), t('sheets.left', { n: sheet.waiting }), sheet.stale && said(sheet.stale, 'p', 'reason')))));

export async function todayPage({ signal }) {
  const day = await get('today', {}, signal);
  // What the customer is to see first is laid on no sheet before the yes.
  const asked = [...day.to_approve, ...day.waiting].filter((item, at, all) => needsYes(item) && all.findIndex((one) => one.number === item.number) === at);
  const waiting = day.waiting.filter((item) => !asked.some((one) => one.number === item.number));
  const needs = [
    need('questions', day.questions.length, day.questions.map(questionSlip)),
    need('held', day.held.length, list('slips', day.held.map(heldItem))),
    need('rows', day.rows.length, hint(t('today.rows.hint')), list('slips', day.rows.map(heldRow))),
    ...approvals(asked.filter((item) => item.state !== 'proofed'), asked.filter((item) => item.state === 'proofed'))].filter(Boolean);
  return [t('today.title'), spread('',
    [h('header', {}, heading(t('today.title')), h('p', { class: 'date' }, longDate(desk.shop.date))), intake(), section(t('today.needs'), needs.length ? needs : p(t('today.needs.none')))],
    [daySheets(waiting.length), rack(waiting), bench(day.sheets.filter((sheet) => sheet.waiting || sheet.stale)),
      day.counts.length > 0 && section(t('today.counts'), h('dl', { class: 'counts' }, day.counts.map((one) =>
        h('div', {}, h('dt', {}, named('state', one.state)), h('dd', {}, String(one.count))))))])];
}
