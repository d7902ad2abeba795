// In: an item. Out: its page, and what other pages have of it: questions, words, acts.
import { designOf, noWish, setter } from './setter.js';
import { begin, called, change, choice, correct, desk, done, factsLine, field, folded, get, given, giver, h, heading, hint, input, itemRow, leaf, leaves, link, list, listed, p, pages, post, press, question, reasonField, reasonLine, row, said, section, small, stateMark, storyList, t, undoLast, words, wordsBox } from './voice.js';

// ---- what only a person can decide ----
const answers = { change: ['take', 'keep'], older: ['take', 'keep'], edit: ['take', 'keep', 'new'] };

async function give(one, answer) {
  // This may write an engraved piece off.
  if (one.kind === 'change' && answer === 'take' && one.items.some(item => ['engraved', 'packed'].includes(item.state)) &&
      !(await question(t`question.lose.title`, t`question.lose.text`, t`question.change.take`))) return;
  await change('answer', { question: one.question, answer }, t`question.done`);
}

export function questionSlip(one) {
  const kind = one.kind in answers ? one.kind : 'change';
  return h('div.slip.question', said(`${one.asks.replace(/\?$/, '')}?`, 'p', 'words'),
    one.proposal && said(one.proposal, 'p', 'words'), list('ruled', one.items, itemRow),
    row(answers[kind].map(answer => press(t(`question.${kind}.${answer}`), () => give(one, answer)))));
}

// ---- its words ----
const drafts = new Map();  // typed and not saved

async function save(item, { words, wish }, isNew) {
  const answers = [];
  try {
    if (isNew.words || !isNew.wish) answers.push(await post('correct', { item: called(item), what: 'words', value: words }));
    if (isNew.wish) answers.push(await post('set', { item: called(item), ...wish }));
    drafts.delete(item.number);
  } finally {
    if (answers.length) await desk.again();
  }
  done(t('item.saved', { item }), answers.at(-1), answers.map(one => one.undo).filter(Boolean));
}

const isOver = item => ['engraved', 'packed', 'cancelled'].includes(item.state);

export function writing(item, pieces = [], id = 'save-words') {
  const kept = { words: item.words, wish: { ...noWish, ...item.wish } };
  const now = () => ({ words: set.words(), wish: set.wish() });
  const isNew = () => ({ words: set.words() !== kept.words, wish: Object.entries(set.wish()).some(([name, value]) => value !== kept.wish[name]) });
  const isFixed = isOver(item), unsaved = h('p.unsaved');
  const store = press(t`item.save`, () => save(item, now(), isNew()), 'main-act', id);
  const back = press(t`item.back`, () => {
    set.put(kept.words, kept.wish);
    set.area.focus();
  });
  const pin = press('', () => correct(item, 'pin', set.piece(), set.piece() ? 'pin' : 'unpin'), '', `pin-${item.number}`);
  function changed() {
    const is = isNew(), isOther = is.words || is.wish;
    if (isOther) drafts.set(item.number, now());
    else drafts.delete(item.number);
    unsaved.textContent = isOther && !isFixed ? t`item.unsaved` : '';
    back.hidden = !isOther;
    const piece = set.piece();
    pin.hidden = isFixed || piece === item.pinned || (!item.pinned && piece === item.piece);
    pin.textContent = piece ? t('item.pin', { piece }) : t`item.unpin`;
  }
  const set = setter({ item, ...(drafts.get(item.number) ?? kept), pieces, changed });
  changed();
  return { plaque: set.plaque, fields: [set.fields, unsaved, row(!isFixed && store, pin, back), isFixed && hint(t`item.fixed`), set.notes] };
}

// ---- what may be done with it ----
export async function wentWrong(item) {
  const chosen = await question(t('wrong.title', { item }), t('wrong.text', { piece: item.piece || '…' }), t`wrong.yes`, [
    reasonField('wrong-reason', 'wrong'),
    h('fieldset', h('legend', t`wrong.when`), ['now', 'later'].map(when =>
      choice({ type: 'radio', name: 'when', value: when, checked: when === 'now' }, t(`wrong.${when}`)))),
    field('wrong-words', t`wrong.words`, wordsBox({ name: 'words', rows: 3, value: item.words })),
    field('wrong-piece', t`wrong.piece`, input('text', { name: 'piece', autocomplete: 'off', dir: 'ltr', maxlength: 60 }), t`wrong.piece.hint`),
  ]);
  if (!chosen) return;
  const typed = chosen.words.replaceAll('\r\n', '\n');
  await change('remake', { item: called(item), piece: chosen.piece.trim(), reason: chosen.reason.trim(), later: chosen.when === 'later', ...(typed !== item.words && { text: typed }) }, t(`wrong.${chosen.when}.done`, { item }));
}

const holdForm = item => folded(t`act.hold.title`, h('form.inline', given(({ reason }) => correct(item, 'hold', reason.trim())),
  reasonField('hold-reason', 'act.hold'), giver(t`act.hold`)));

export const approve = (item, id = 'act-approve') =>
  press(t`act.approve`, () => change('approve', { items: [called(item)] }, t('act.approve.done', { item })), '', id);
export const release = item =>
  press(t`act.release`, () => correct(item, 'release'), '', `release-${item.number}`);

const needsYes = item => !['approved', 'held', 'spoiled'].includes(item.state) &&
  desk.shop.designs.some(one => one.approval && one.name === designOf(item));

function acts(item, neighbours) {
  const is = (...states) => states.includes(item.state);
  const waits = !isOver(item) && !is('on sheet');
  const act = (name, work) => press(t(`act.${name}`), work, '', `act-${name}`);
  const byPerson = is('held') && item.held_by === 'person';
  return [
    row(byPerson && release(item),
      is('proofed') && approve(item),
      waits && needsYes(item) && act('proof', () => begin('proofs', { items: [called(item)], date: desk.shop.date })),
      waits && !item.first && act('first', () => correct(item, 'first')),
      is('engraved') && act('pack', () => change('pack', { items: [called(item)], orders: [] }, t('act.pack.done', { item }))),
      is('engraved') && neighbours.some(one => one.state === 'engraved') &&
        act('pack_all', () => change('pack', { items: [], orders: [item.order] }, t('act.pack_all.done', item))),
      is('on sheet', 'engraved', 'packed') && press(t`wrong`, () => wentWrong(item), 'grave', 'act-wrong'),
      !isOver(item) && act('cancel', () => correct(item, 'cancel')),
      press(t`undo.last`, () => undoLast(item), '', 'act-undo')),
    !isOver(item) && !byPerson && holdForm(item),
  ];
}

async function heldSlip(item) {
  if (item.state !== 'held') return null;
  const by = ['person', 'question'].includes(item.held_by) ? item.held_by : 'program';
  const { questions = [] } = by === 'question' ? await get('today') : {};
  return h('section.slip.held-slip', h('h2', t(`held.by.${by}`)), reasonLine(item.reason), by === 'program' && p(t`held.mend.words`),
    questions.filter(one => one.items.some(other => other.number === item.number)).map(questionSlip));
}

const slip = (item, exported) => h('section.slip.original', h('h2', t`item.original`), words(exported),
  item.note && [h('h3', t`item.note`), words(item.note)],
  item.customer && small(t`item.customer`, ' ', h('bdi', item.customer)));

pages.item = async ({ name }) => {
  const { item, exported, neighbours = [], pieces = [], story = [] } = await get('item', { number: name });
  if (!item) return leaf(t('item.none', { number: name }), p(t`item.none.mend`));
  const { plaque, fields } = writing(item, pieces), title = t('item.title', { item });
  return leaves(title, [plaque, slip(item, exported ?? item.words)],
    [await heldSlip(item), section(t`item.words`, fields), section(t`item.acts`, acts(item, neighbours)),
      listed(t('item.neighbours', item), 'ruled', neighbours, itemRow), storyList(story)],
    'item', heading(title, factsLine(stateMark(item.state), item.sheet && link('sheet', item.sheet, t('item.on_sheet', item)),
      item.piece && t('item.piece', item), item.pinned && t('item.pinned', { piece: item.pinned }), item.first && t`item.first`)));
};
