// In: an item's number. Out: its page: its plaque, the customer's words, what may be done with it, its order and its story.
import { acts, openQuestions } from './item_acts.js';
import { get, h, heading, itemRow, leaf, leaves, link, listed, p, pages, reasonLine, section, small, stateMark, storyList, t, words } from './voice.js';
import { writing } from './writing.js';

async function heldSlip(item) {
  if (item.state !== 'held') return null;
  const by = ['person', 'question'].includes(item.held_by) ? item.held_by : 'program';
  return h('section.slip.held-slip', h('h2', t(`held.by.${by}`)), reasonLine(item.reason),
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

pages.item = async ({ name }) => {
  const { item, exported, neighbours = [], pieces = [], story = [] } = await get('item', { number: name });
  if (!item) return leaf(t('item.none', { number: name }), p(t`item.none.mend`));
  const { plaque, fields } = writing(item, pieces);
  const title = t('item.title', { item });
  return leaves(title, 'item', [plaque, slip(item, exported ?? item.words)],
    [await heldSlip(item), section(t`item.words`, fields), section(t`item.acts`, acts(item, neighbours)),
      listed(t('item.neighbours', item), 'ruled', neighbours, itemRow), storyList(story)],
    heading(title, h('p.facts', stateMark(item.state), place(item))));
};
