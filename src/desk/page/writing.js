// In: an item. Out: its plaque, its fields, and one button that saves what was changed.
import { noWish, setter } from './setter.js';
import { called, correct, desk, done, h, hint, post, press, row, t } from './voice.js';

// What was typed and not saved stays until the page is closed.
const drafts = new Map();

async function save(item, { words, wish }, isNew) {
  const undo = [];
  let answer;
  try {
    if (isNew.words || !isNew.wish) answer = await post('correct', { item: called(item), what: 'words', value: words });
    if (answer?.undo) undo.push(answer.undo);
    if (isNew.wish) answer = await post('set', { item: called(item), ...wish });
    if (isNew.wish && answer.undo) undo.push(answer.undo);
    drafts.delete(item.number);
  } finally {
    if (answer) await desk.again();
  }
  done(t('item.saved', { item }), answer, undo);
}

export function writing(item, pieces = [], id = 'save-words') {
  const kept = { words: item.words, wish: { ...noWish, ...item.wish } };
  const now = () => ({ words: set.words(), wish: set.wish() });
  const isNew = () => ({ words: set.words() !== kept.words, wish: Object.entries(set.wish()).some(([name, value]) => value !== kept.wish[name]) });
  const isFixed = ['engraved', 'packed', 'cancelled'].includes(item.state);
  const unsaved = h('p.unsaved');
  const store = press(t`item.save`, () => save(item, now(), isNew()), 'main-act', id);
  const back = press(t`item.back`, () => {
    set.put(kept.words, kept.wish);
    set.area.focus();
  });
  const pin = press('', () => correct(item, 'pin', set.piece(), set.piece() ? 'pin' : 'unpin'), '', `pin-${item.number}`);
  function changed() {
    const is = isNew();
    const isOther = is.words || is.wish;
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
