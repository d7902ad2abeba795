// In: what is asked now and then. Out: the designs, what a search finds.
import { desk, get, h, inLine, itemLink, leaf, link, list, p, pages, said, size, small, stateMark, t, view } from './voice.js';

async function designCard({ name, about, material, approval }) {
  let set = {};
  try {
    set = await get('design-picture', { design: name });
  } catch (error) {
    set = error.answer ?? {};
  }
  const facts = [set.width > 0 && size(set.width, set.height), material, name === desk.shop.default_design && t`designs.default`, approval && t`designs.approval`];
  return h('li', view(set.picture, t('designs.picture', { design: name })), h('h2', { dir: 'auto' }, link('design', name)), about && said(about, 'p'), small(facts.filter(Boolean).join(' · ')));
}

pages.designs = async () => {
  const cards = [];
  for (const design of desk.shop.designs) cards.push(await designCard(design));
  return leaf(t`designs.title`, p(t`designs.about`), list('designs', cards));
};

pages.search = async ({ name }) => {
  const asked = name.trim();
  const { items } = asked ? await get('search', { words: asked }) : { items: [] };
  const found = (item) => [itemLink(item), inLine(item), h('bdi.by', item.customer), stateMark(item.state)];
  return leaf(t`search.title`,
    p(asked ? t('search.count', { n: items.length }) : t`search.nothing_asked`, asked && [' ', h('q', { dir: 'auto' }, asked)]),
    items.length > 0 && list('ruled', items.map(found)));
};
