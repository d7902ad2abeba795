// In: an item's number. Out: its page: its plaque, the customer's words, what may be done with it, its order and its story.
import { acts, openQuestions } from './item_acts.js';
import { alone, get, h, heading, itemRow, link, list, p, said, section, small, spread, stateMark, storyList, t, words } from './voice.js';
import { writing } from './writing.js';

async function heldSlip(item) {
  if (item.state !== 'held') return null;
  const by = ['person', 'question'].includes(item.held_by) ? item.held_by : 'program';
  return h('section.slip.held-slip', h('h2', t(`held.by.${by}`)), said(item.reason, 'p', 'reason'),
    by === 'program' && p(t`held.mend.words`), by === 'question' && await openQuestions(item));
}

const slip = (item, exported) => h('section.slip.original', h('h2', t`item.original`), words(exported),
  item.note && [h('h3', t`item.note`), words(item.note)],
  item.customer && small(t`item.customer`, ' ', h('bdi', item.customer)));

const place = (item) => [
  item.sheet && link('sheet', item.sheet, t('item.on_sheet', item)),
  item.piece && t('item.piece', item),
  item.pinned && t('item.pinned', { piece: item.pinned }),
  item.first && t`item.first`].filter(Boolean).map((one) => h('span', one));

export async function itemPage({ name }) {
  const { item, exported, neighbours = [], pieces = [], story = [] } = await get('item', { number: name });
  if (!item) return [t('item.none', { number: name }), alone(heading(t('item.none', { number: name })), p(t`item.none.mend`))];
  const { plaque, fields } = writing(item, pieces);
  return [t('item.title', { item }), spread('item',
    [h('header', heading(t('item.title', { item })), h('p.facts', stateMark(item.state), place(item))),
      plaque, slip(item, exported ?? item.words)],
    [await heldSlip(item), section(t`item.words`, fields), section(t`item.acts`, acts(item, neighbours)),
      neighbours.length > 0 && section(t('item.neighbours', item), list('ruled', neighbours.map(itemRow))),
      storyList(story)])];
}
