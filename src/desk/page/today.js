// In: how the workshop stands. Out: the day in its order: take the export in, mend what waits, make the sheets.
import { intake } from './intake.js';
import { approve, questionSlip, release, writing } from './item.js';
import { smallPlaque } from './setter.js';
import { address, begin, called, change, choice, correct, desk, done, field, folded, get, given, giver, h, heading, hint, inLine, input, itemLink, leaf, leaves, link, list, listed, longDate, madeLink, mendLine, named, numeral, p, pages, paper, press, proofsLink, reasonField, reasonLine, row, section, t, unseen, words } from './voice.js';

const openMends = new Set();

function mender(item) {
  const mend = folded(t`today.mend_here`);
  mend.ontoggle = () => {
    if (!mend.open) return void openMends.delete(item.number);
    openMends.add(item.number);
    if (mend.querySelector('.mend-form')) return;
    const { plaque, fields } = writing(item, [], `mend-${item.number}`);
    mend.append(h('div.mend-form', plaque, h('div', fields)));
  };
  mend.open = openMends.has(item.number);
  return mend;
}

const heldItem = item => h('li.slip.held-slip', h('h4', itemLink(item), ' ', h('bdi.by', item.customer)),
  words(item.words), reasonLine(item.reason), item.note && h('p.by', t`item.note`, ': ', h('bdi', item.note)),
  item.held_by === 'person' ? row(release(item)) : item.held_by === 'question' ? hint(t`today.by_question`) : mender(item));

const heldRow = one => h('li.slip', h('h4', { dir: 'ltr' }, one.name, ' ', h('span.by', one.file)),
  reasonLine(one.reason), words(one.as_it_came, 'blockquote'), mendLine(one.mend),
  row(press(t`row.let_go`, () => change('let-go', { row: one.name }, t('row.done', { row: one.name })))));

const need = (name, { length }, ...content) =>
  length > 0 && h('div.need', { id: `need-${name}` }, h('h3', t(`today.${name}`), ' ', h('span.count', length)), content);

/// Lines to mark, and what is done with those that are marked.
function markable(name, some, act, work, more = null) {
  const boxes = some.map(one => choice({ type: 'checkbox' }, numeral(one.name), one.content));
  const marked = () => some.filter((_, at) => boxes[at].querySelector(':checked')).map(one => one.name);
  return need(name, some, hint(t(`today.${name}.hint`)), more, list('ruled', some.map((one, at) => [boxes[at], link('item', one.item.number, [t`today.look`, unseen(` ${one.name}`)])])),
    row(press(act, () => (marked().length ? work(marked()) : done(t`today.none_chosen`)))));
}
const itemLine = item => ({ name: called(item), content: inLine(item), item });

const parcels = items => [...Map.groupBy(items, item => item.order)].map(([name, of]) =>
  ({ name, item: of[0], content: [h('bdi.by', of[0].customer), h('span.goods', of.map(inLine))] }));

const outgoing = ({ to_prove, to_approve, to_pack }) => [
  markable('unseen', to_prove.map(itemLine), t`today.proofs`, items => begin('proofs', { items, date: desk.shop.date })),
  markable('asked', to_approve.map(itemLine), t`today.approve`,
    items => change('approve', { items }, t('today.approved', { n: items.length })), p(h('a', { href: '#/proofs' }, t`proofs.see`))),
  markable('parcels', parcels(to_pack), t`today.pack`, orders => change('pack', { items: [], orders }, t('today.packed', { n: orders.length })), row(paper('packing', { labels: false }, t`today.packing`), paper('packing', { labels: true }, t`today.labels`, 'labels')))];

function daySheets(count) {
  const date = input('date', { required: true, value: desk.shop.date });
  return section(t`today.sheets`, p(t(count ? 'today.ready' : 'today.none_waiting', { n: count })), count > 0 &&
    h('form.day', given(() => begin('day', { date: date.value })), field('day-date', t`today.date`, date), giver(t`today.make`, 'main-act big', 'make-day')));
}

const fewest = 24;  // plaques shown before one asks for all

function rack(waiting) {
  const card = item => h('li', h('a.card', { href: address('item', item.number) }, smallPlaque(item), numeral(called(item)), inLine(item)));
  const cards = list('rack', waiting.slice(0, fewest).map(card));
  const more = waiting.length > fewest && press(t('today.all', { n: waiting.length }), () => {
    more.parentNode.remove();
    cards.append(...waiting.slice(fewest).map(card));
    cards.children[fewest].firstChild.focus();
  });
  return waiting.length > 0 && section(t`today.waiting`, cards, more && row(more));
}

const bench = sheets => listed(t`today.bench`, 'ruled', sheets, sheet =>
  [link('sheet', sheet.name), t('sheets.left', { n: sheet.waiting }), reasonLine(sheet.stale)]);

pages.today = async () => {
  const day = await get('today');
  // Laid on no sheet before the customer's yes.
  const unsettled = new Set([...day.to_prove, ...day.to_approve].map(item => item.number));
  const waiting = day.waiting.filter(item => !unsettled.has(item.number));
  const needs = [
    need('questions', day.questions, day.questions.map(questionSlip)),
    need('held', day.held, list('slips', day.held, heldItem)),
    need('rows', day.rows, hint(t`today.rows.hint`), list('slips', day.rows, heldRow)),
    ...outgoing(day)].filter(Boolean);
  return leaves(t`today.title`, [intake(!day.counts.length), section(t`today.needs`, needs.length ? needs : p(t`today.needs.none`))],
    [daySheets(waiting.length), rack(waiting), bench(day.sheets.filter(sheet => sheet.waiting || sheet.stale)),
      day.counts.length > 0 && section(t`today.counts`, h('dl.counts', day.counts.map(one =>
        h('div', h('dt', named('state', one.state)), h('dd', one.count)))))],
    '', heading(t`today.title`, h('p.date', longDate(desk.shop.date))));
};

// ---- what customers see first: their yes or no ----
const noForm = item => folded(t`proofs.no`, h('form', given(({ reason }) => correct(item, 'hold', `${t`proofs.no.mark`}: ${reason.trim()}`)),
  reasonField(`no-${item.number}`, 'proofs.no'), row(giver(t`proofs.no.keep`))));

const proof = ({ item }, ...acts) => h('li', smallPlaque(item), p(itemLink(item), ' ', h('bdi.by', item.customer)), p(inLine(item)), acts);

const asked = ({ item, file }) => proof({ item },
  row(file && madeLink('proofs', file, t`proofs.picture`),
    approve(item, `yes-${item.number}`)),
  noForm(item));

pages.proofs = async () => {
  const day = await get('proofs');
  const all = () => begin('proofs', { items: day.unseen.map(({ item }) => called(item)), date: desk.shop.date });
  const part = (name, some, draw, ...more) => section(t(`proofs.${name}`),
    some.length ? [more, list('designs', some, draw)] : p(t(`proofs.${name}.none`)));
  return leaf(t`proofs.title`,
    part('asked', day.asked, asked, day.files.includes('proofs.pdf') && p(proofsLink())),
    part('unseen', day.unseen, proof, row(press(t`proofs.make`, all, 'main-act', 'make-proofs'))));
};
