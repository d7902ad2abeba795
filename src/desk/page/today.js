// In: how the workshop stands. Out: the day in its order: take the export in, mend what waits, make the sheets.
import { intake } from './intake.js';
import { release } from './item_acts.js';
import { questionSlip } from './questions.js';
import { smallPlaque } from './setter.js';
import { called, change, choice, desk, done, field, get, giver, h, heading, hint, inLine, input, itemLink, itemPath, link, list, longDate, madeLink, named, numeral, onGiven, p, post, press, row, said, section, spread, t, unseen, words } from './voice.js';
import { begin } from './work.js';
import { writing } from './writing.js';

const openMends = new Set();  // stay open when the page is read again

function mendForm(item) {
  const { plaque, fields } = writing(item, [], `mend-${item.number}`);
  return h('div.mend-form', plaque, h('div', fields));
}

function mender(item) {
  const mend = h('details', h('summary', t`today.mend_here`));
  mend.addEventListener('toggle', () => {
    if (!mend.open) return void openMends.delete(item.number);
    openMends.add(item.number);
    if (!mend.querySelector('.mend-form')) mend.append(mendForm(item));
  });
  mend.open = openMends.has(item.number);
  return mend;
}

const heldItem = (item) => h('li.slip.held-slip', h('h4', itemLink(item), ' ', h('bdi.by', item.customer)),
  words(item.words), said(item.reason, 'p', 'reason'), item.note && h('p.by', t`item.note`, ': ', h('bdi', item.note)),
  item.held_by === 'person' ? row(release(item)) : item.held_by === 'question' ? hint(t`today.by_question`) : mender(item));

const heldRow = (one) => h('li.slip', h('h4', { dir: 'ltr' }, one.name, ' ', h('span.by', one.file)),
  said(one.reason, 'p', 'reason'), words(one.as_it_came, 'blockquote'), p(h('b', t`mend`, ' '), said(one.mend)),
  row(press(t`row.let_go`, () => change('let-go', { row: one.name }, t('row.done', { row: one.name })))));

const need = (name, count, ...content) =>
  count > 0 && h('div.need', { id: `need-${name}` }, h('h3', t(`today.${name}`), ' ', h('span.count', count)), content);

/// Lines with a box to mark each, and what is done with those that are marked.
function markable(name, some, act, work, more = null) {
  const boxes = some.map((one) => choice({ type: 'checkbox' }, numeral(one.name), one.content));
  const marked = () => some.filter((_, at) => boxes[at].querySelector(':checked')).map((one) => one.name);
  return need(name, some.length, hint(t(`today.${name}.hint`)), more, list('ruled', some.map((one, at) => [boxes[at], link('item', one.item.number, [t`today.look`, unseen(` ${one.name}`)])])),
    row(press(act, () => (marked().length ? work(marked()) : done(t`today.none_chosen`)))));
}
const itemLine = (item) => ({ name: called(item), content: inLine(item), item });

function parcels(items) {
  const orders = new Map();
  for (const item of items) orders.set(item.order, [...(orders.get(item.order) ?? []), item]);
  return [...orders].map(([name, of]) => ({ name, item: of[0], content: [h('bdi.by', of[0].customer), h('span.goods', of.map(inLine))] }));
}

const parcelPaper = (name) => press(t(`today.${name}`), async () => {
  done(t`today.paper`, await post('packing', { labels: name === 'labels' }));
  madeLink('packing', `${name}.pdf`).click();
}, { id: name });

const outgoing = ({ to_prove, to_approve, to_pack }) => [
  markable('unseen', to_prove.map(itemLine), t`today.proofs`, (items) => begin('proofs', { items, date: desk.shop.date })),
  markable('asked', to_approve.map(itemLine), t`today.approve`,
    (items) => change('approve', { items }, t('today.approved', { n: items.length })), p(h('a', { href: '#/proofs' }, t`proofs.see`))),
  markable('parcels', parcels(to_pack), t`today.pack`, (orders) => change('pack', { items: [], orders }, t('today.packed', { n: orders.length })), row(parcelPaper('packing'), parcelPaper('labels')))];

function daySheets(count) {
  const date = input('date', { required: true, value: desk.shop.date });
  return section(t`today.sheets`, p(t(count ? 'today.ready' : 'today.none_waiting', { n: count })), count > 0 && onGiven(
    h('form.day', { id: 'day' }, field('day-date', t`today.date`, date), giver(t`today.make`, 'main-act big', 'make-day')),
    () => begin('day', { date: date.value })));
}

const fewest = 24;  // plaques shown before one asks for all

function rack(waiting) {
  const card = (item) => h('li', h('a.card', { href: itemPath(item.number) }, smallPlaque(item), numeral(called(item)), inLine(item)));
  const cards = list('rack', waiting.slice(0, fewest).map(card));
  const more = waiting.length > fewest && press(t('today.all', { n: waiting.length }), () => {
    more.parentNode.remove();
    cards.append(...waiting.slice(fewest).map(card));
    cards.children[fewest].firstChild.focus();
  });
  return waiting.length > 0 && section(t`today.waiting`, cards, more && row(more));
}

const bench = (sheets) => sheets.length > 0 && section(t`today.bench`, list('ruled', sheets.map((sheet) =>
  [link('sheet', sheet.name), t('sheets.left', { n: sheet.waiting }), sheet.stale && said(sheet.stale, 'p', 'reason')])));

export async function todayPage() {
  const day = await get('today');
  // What the customer is to see first is laid on no sheet before the yes.
  const unsettled = new Set([...day.to_prove, ...day.to_approve].map((item) => item.number));
  const waiting = day.waiting.filter((item) => !unsettled.has(item.number));
  const needs = [
    need('questions', day.questions.length, day.questions.map(questionSlip)),
    need('held', day.held.length, list('slips', day.held.map(heldItem))),
    need('rows', day.rows.length, hint(t`today.rows.hint`), list('slips', day.rows.map(heldRow))),
    ...outgoing(day)].filter(Boolean);
  return [t`today.title`, spread('',
    [h('header', heading(t`today.title`), h('p.date', longDate(desk.shop.date))), intake(!day.counts.length), section(t`today.needs`, needs.length ? needs : p(t`today.needs.none`))],
    [daySheets(waiting.length), rack(waiting), bench(day.sheets.filter((sheet) => sheet.waiting || sheet.stale)),
      day.counts.length > 0 && section(t`today.counts`, h('dl.counts', day.counts.map((one) =>
        h('div', h('dt', named('state', one.state)), h('dd', one.count)))))])];
}
