// In: an item's number. Out: its page: the plaque on its own piece, the customer's words, the field that mends them, what may
// be done with it, its order and its story.
import { get } from './ask.js';
import { alone, called, h, heading, hint, itemRow, link, list, numeral, p, row, said, section, small, spread, stateMark, storyList, words } from './dom.js';
import { acts, openQuestions } from './item_acts.js';
import { setter } from './setter.js';
import { t, time } from './texts.js';
import { correct, desk, press } from './voice.js';

// What was typed and not saved stays until the page is closed.
const drafts = new Map();

async function heldSlip(item, signal) {
  if (item.state !== 'held') return null;
  const by = ['person', 'question'].includes(item.held_by) ? item.held_by : 'program';
  return h('section', { class: 'slip held-slip' }, h('h2', {}, t(`held.by.${by}`)), said(item.reason, 'p', 'reason'),
    by === 'program' && p(t('held.mend.words')), by === 'question' && await openQuestions(item, signal));
}

const slip = (item, exported) => h('section', { class: 'slip original' }, h('h2', {}, t('item.original')), words(exported),
  item.note && [h('h3', {}, t('item.note')), words(item.note)],
  item.customer && small(t('item.customer'), ' ', h('bdi', {}, item.customer)));

const place = (item) => [
  item.sheet && link('sheet', item.sheet, t('item.on_sheet', { sheet: item.sheet, pocket: item.pocket })),
  item.piece && t('item.piece', { piece: item.piece }),
  item.pinned && t('item.pinned', { piece: item.pinned }),
  item.first && t('item.first')].filter(Boolean).map((one) => h('span', {}, one));

/// The field, its plaque, and what becomes of what is typed.
function writing(item, pieces) {
  const draft = drafts.get(item.number);
  const design = item.design || desk.shop.default_design;
  const isFixed = ['engraved', 'packed', 'cancelled'].includes(item.state);
  const unsaved = h('p', { class: 'unsaved' });
  const other = hint('');
  const save = press(t('item.save'), async () => {
    const typed = set.words();
    drafts.delete(item.number);
    try {
      await correct(item, 'words', typed, t('item.saved', { item: called(item) }));
    } catch (error) {
      drafts.set(item.number, typed);
      throw error;
    }
  }, { class: 'main-act', id: 'save-words' });
  const back = press(t('item.back'), () => {
    set.put(item.words);
    set.area.focus();
  });
  const pin = press('', () => {
    const piece = set.piece();
    return correct(item, 'pin', piece, t(piece ? 'item.pin.done' : 'item.unpin.done', { item: called(item), piece }));
  }, { id: 'pin' });
  function changed() {
    const isOther = set.words() !== item.words;
    if (isOther) drafts.set(item.number, set.words());
    else drafts.delete(item.number);
    unsaved.textContent = isOther && !isFixed ? t('item.unsaved') : '';
    back.hidden = !isOther;
    const piece = set.piece();
    pin.hidden = isFixed || piece === item.pinned || (!item.pinned && piece === item.piece);
    pin.textContent = piece ? t('item.pin', { piece }) : t('item.unpin');
    other.textContent = set.design() === design ? '' : t('item.other_design', { design });
  }
  const set = setter({ number: item.number, words: draft ?? item.words, design, piece: item.piece || item.pinned,
    designs: desk.shop.designs, pieces, changed });
  changed();
  return [set.plaque, section(t('item.words'), set.fields, other, unsaved, row(!isFixed && save, pin, back), isFixed && hint(t('item.fixed')), set.notes)];
}

export async function itemPage({ name, signal }) {
  const { item, exported, neighbours = [], pieces = [], story = [] } = await get('item', { number: name }, signal);
  if (!item) return [t('item.none', { number: name }), alone(heading(t('item.none', { number: name })), p(t('item.none.mend')))];
  const [plaque, field] = writing(item, pieces);
  return [t('item.window', { item: called(item) }), spread('item',
    [h('header', {}, heading(t('item.title'), ' ', numeral(called(item))), h('p', { class: 'facts' }, stateMark(item.state), place(item))),
      plaque, slip(item, exported ?? item.words)],
    [await heldSlip(item, signal), field, section(t('item.acts'), acts(item, neighbours)),
      neighbours.length > 0 && section(t('item.neighbours', { order: item.order }), list('ruled', neighbours.map(itemRow))),
      storyList(story, time)])];
}
