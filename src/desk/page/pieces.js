// In: what is kept on the shelf. Out: measured pieces at one scale and what became of them; the designs; what a search finds.
import { accountBox, change, choice, desk, fill, get, h, inLine, itemLink, leaf, link, list, named, numeral, p, pages, press, question, reasonField, row, said, section, size, small, stateMark, t, unseen, view } from './voice.js';

let shown = 'free';  // stays when the page is read again

async function writeOff(piece) {
  const chosen = await question(t('pieces.lose.title', { piece }), t`pieces.lose.text`, t`pieces.lose.yes`,
    [reasonField('lose-reason', 'wrong')]);
  if (chosen) await change('spoil', { item: '', piece, reason: chosen.reason.trim() }, t('pieces.lost', { piece }));
}

function card({ id, picture, width, height, material, note, state, item }, widest) {
  const drawn = view(picture, t('pieces.picture', { piece: id }));
  drawn.style.width = `${Math.round((100 * width) / widest)}%`;
  return h('li', drawn, h('div', h('h3', numeral(id)), p(size(width, height), material && [', ', h('bdi', material)]),
    note && small(h('bdi', note)), p(stateMark(state, 'piece'), ' ', item && link('item', item),
      state === 'free' && [link('measure', id, t('measure.one', { name: id })), ' ', press([t`pieces.write_off`, unseen(` ${id}`)], () => writeOff(id), 'small')])));
}

function shelf(pieces) {
  const widest = Math.max(1, ...pieces.map((piece) => piece.width));
  const cards = list('pieces', []);
  const of = (state) => (state === 'all' ? pieces : pieces.filter((piece) => piece.state === state));
  const states = ['free', 'reserved', 'used', 'spoiled', 'all'].filter((state) => of(state).length);
  if (!states.includes(shown)) shown = 'all';
  const renew = () => fill(cards, of(shown).map((piece) => card(piece, widest)));
  const choices = states.map((state) => choice({ type: 'radio', name: 'state', value: state, checked: state === shown },
    named('piece', state), h('span.count', of(state).length)));
  renew();
  return section(t`pieces.all`, h('fieldset.row', { onchange: (event) => {
    shown = event.target.value;
    renew();
  } }, h('legend.unseen', t`pieces.which`), choices), cards);
}

pages.pieces = async () => {
  const { pieces, held } = await get('pieces');
  return leaf(t`pieces.title`, row(h('a', { href: '#/measure' }, t`measure.title`), h('a', { href: '#/photo' }, t`photo.open`)),
    held.length > 0 && accountBox({ held }, 2),
    pieces.length ? shelf(pieces) : p(t(desk.shop.measured ? 'pieces.none' : 'pieces.nominal')));
};

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
    items.length > 0 && list('ruled', items, found));
};
