// In: an item. Out: the buttons of what may be done with it now. Acts by which material is lost ask first.
import { questionSlip } from './questions.js';
import { designOf } from './setter.js';
import { called, change, choice, correct, desk, field, folded, get, given, giver, h, input, press, question, reasonField, row, t, undoLast, wordsBox } from './voice.js';
import { begin } from './work.js';

export async function wentWrong(item) {
  const chosen = await question(t('wrong.title', { item }), t('wrong.text', { piece: item.piece || '…' }), t`wrong.yes`, [
    reasonField('wrong-reason', 'wrong'),
    h('fieldset', h('legend', t`wrong.when`), ['now', 'later'].map((when) =>
      choice({ type: 'radio', name: 'when', value: when, checked: when === 'now' }, t(`wrong.${when}`)))),
    field('wrong-words', t`wrong.words`, wordsBox({ name: 'words', rows: 3, value: item.words })),
    field('wrong-piece', t`wrong.piece`, input('text', { name: 'piece', autocomplete: 'off', dir: 'ltr', maxlength: 60 }), t`wrong.piece.hint`),
  ]);
  if (!chosen) return;
  const ask = { item: called(item), piece: chosen.piece.trim(), reason: chosen.reason.trim(), later: chosen.when === 'later' };
  const typed = chosen.words.replaceAll('\r\n', '\n');
  if (typed !== item.words) ask.text = typed;
  await change('remake', ask, t(`wrong.${chosen.when}.done`, { item }));
}

/// Why it is kept back is written down with it.
const holdForm = (item) => folded(t`act.hold.title`, h('form.inline', given(({ reason }) => correct(item, 'hold', reason.trim())),
  reasonField('hold-reason', 'act.hold'), giver(t`act.hold`)));

export const release = (item) =>
  press(t`act.release`, () => correct(item, 'release'), '', `release-${item.number}`);

/// Whether the customer's yes is needed and still to come.
const needsYes = (item) => !['approved', 'held', 'spoiled'].includes(item.state) &&
  desk.shop.designs.some((one) => one.approval && one.name === designOf(item));

export function acts(item, neighbours) {
  const is = (...states) => states.includes(item.state);
  const isOver = is('engraved', 'packed', 'cancelled');
  const waits = !isOver && !is('on sheet');
  const tell = (name) => t(`act.${name}.done`, { item });
  const act = (name, work) => press(t(`act.${name}`), work, '', `act-${name}`);
  const byPerson = is('held') && item.held_by === 'person';
  return [
    row(byPerson && release(item),
      is('proofed') && act('approve', () => change('approve', { items: [called(item)] }, tell('approve'))),
      waits && needsYes(item) && act('proof', () => begin('proofs', { items: [called(item)], date: desk.shop.date })),
      waits && !item.first && act('first', () => correct(item, 'first')),
      is('engraved') && act('pack', () => change('pack', { items: [called(item)], orders: [] }, tell('pack'))),
      is('engraved') && neighbours.some((one) => one.state === 'engraved') &&
        act('pack_all', () => change('pack', { items: [], orders: [item.order] }, t('act.pack_all.done', item))),
      is('on sheet', 'engraved', 'packed') && press(t`wrong`, () => wentWrong(item), 'grave', 'act-wrong'),
      !isOver && act('cancel', () => correct(item, 'cancel')),
      press(t`undo.last`, () => undoLast(item), '', 'act-undo')),
    !isOver && !byPerson && holdForm(item),
  ];
}

/// The questions that hold this item: they can be answered on its own page.
export async function openQuestions(item) {
  const { questions = [] } = await get('today');
  return questions.filter((one) => one.items.some((other) => other.number === item.number)).map(questionSlip);
}
