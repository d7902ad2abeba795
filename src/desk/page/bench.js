// In: what stands beside the plaques. Out: stock, stands, board, panes, faces, pieces, designs, a search.
import { accountBox, begin, change, choice, desk, faultBox, faultOf, field, fill, get, given, giver, h, inLine, input, itemLink, leaf, leaves, length, link, list, listed, madeLink, mm, named, numeral, p, pages, press, question, reasonField, reasonLine, row, said, section, select, sendFile, sentence, size, slot, small, stateMark, t, turns, unseen, view, watched } from './voice.js';

const turn = here => turns(['stock', 'board', 'panes', 'faces'], here);
const made = (folder, files) => listed(t`proofs.files`, 'row', files, name => madeLink(folder, name));

/// What is drawn of what is chosen; a Fault stands in its place.
async function following(input, path, name, draw) {
  const node = h('div');
  input.onchange = async () => fill(node, await get(path, { [name]: input.value }).then(draw, error => faultBox(faultOf(error))));
  await input.onchange();
  return node;
}

pages.stock = async () => {
  const { account, picture: all } = await get('stock');
  const count = input('number', { min: 1, max: 10000, inputmode: 'numeric' });
  const date = input('date', { required: true, value: desk.shop.date });
  const picture = await following(date, 'stand', 'date',
    stand => [view(stand.picture, t('stands.picture', { date: date.value })), small(size(stand))]);
  const make = () => begin('stands', { date: date.value, ...(count.value && { count: +count.value }) });
  const form = h('form', given(make), h('div.pair', field('stand-count', t`stands.count`, count, t`stands.count.hint`), field('stand-date', t`stands.date`, date)),
    row(giver(t`stands.make`, 'main-act')));
  return leaves(t`stock.title`, [turn('stock'), section(t`stock.left`, all && view(all, t`pieces.title`), accountBox(account))],
    section(t`stands.title`, p(t`stands.about`), picture, form));
};

pages.board = async () => {
  const design = select(desk.shop.default_design, desk.shop.designs.map(one => one.name));
  const files = h('div');
  const picture = await following(design, 'board', 'design', board => {
    fill(files, made('jig', board.files));
    return [view(board.picture, t('board.picture', { n: board.pockets })), small(size(board), ' · ', t('board.holes', { n: board.pockets, size: size({ width: board.hole_width, height: board.hole_height }) }))];
  });
  const make = () => change('board', { design: design.value }, t`board.made`);
  return leaves(t`board.title`, [turn('board'), h('figure.bed-figure', picture)],
    [p(t`board.about`), field('board-design', t`fit.design`, design), row(press(t`board.make`, make, 'main-act', 'make-board')), files]);
};

pages.panes = async () => {
  const { panes, files } = await get('panes');
  const piece = input('text', { dir: 'ltr', maxlength: 30, autocomplete: 'off' });
  const kerf = length({ min: 0, max: 50, value: 3 });
  const plan = file => sendFile('panes', file, true, { piece: piece.value.trim(), kerf: kerf.value }).then(watched);
  return leaf(t`panes.title`, turn('panes'), p(t`panes.about`),
    h('div.pair', field('pane-piece', t`panes.piece`, piece, t`panes.piece.hint`), field('pane-kerf', t`panes.kerf`, kerf, t`panes.kerf.hint`)),
    slot('panes-file', t`panes.planning`, plan, 'panes'), made('panes', files),
    listed(t`panes.plans`, 'designs', panes, pane =>
      h('li', view(pane.picture, t('panes.picture', { pane: pane.id })), h('h3', { dir: 'ltr' }, pane.id), small(size(pane), ' · ', t('panes.yield', pane)))));
};

pages.faces = async () => {
  const words = sentence({ required: true, maxlength: 120 }), faces = h('div');
  const show = async () => {
    const seen = await get('faces', { words: words.value });
    words.value ||= seen.words;
    fill(faces, list('faces', seen.faces, ({ name, use, picture, least, cannot }) => h('li', h('h2', { dir: 'ltr' }, name),
      picture ? view(picture, t('faces.picture', { face: name })) : reasonLine(cannot), small(use && said(use), use && least > 0 && ' · ', least > 0 && t('faces.least', { mm: mm(least) })))),
    made('specimen', seen.files));
  };
  await show();
  return leaf(t`faces.title`, turn('faces'), p(t`faces.about`),
    h('form.inline', given(show), field('face-words', t`faces.words`, words), giver(t`faces.show`, 'main-act')),
    row(press(t`faces.print`, () => begin('specimen', { words: words.value }), '', 'make-specimen')), faces);
};

// ---- measured pieces at one scale ----
let shown = 'free';

async function writeOff(piece) {
  const chosen = await question(t('pieces.lose.title', { piece }), t`pieces.lose.text`, t`pieces.lose.yes`,
    [reasonField('lose-reason', 'wrong')]);
  if (chosen) await change('spoil', { item: '', piece, reason: chosen.reason.trim() }, t('pieces.lost', { piece }));
}

function card({ id, picture, width, height, material, note, state, item }, widest) {
  const drawn = view(picture, t('pieces.picture', { piece: id }));
  drawn.style.width = `${Math.round((100 * width) / widest)}%`;
  return h('li', drawn, h('div', h('h3', numeral(id)), p(size({ width, height }), material && [', ', h('bdi', material)]),
    note && small(h('bdi', note)), p(stateMark(state, 'piece'), ' ', item && link('item', item),
      state === 'free' && [link('measure', id, t('measure.one', { name: id })), ' ', press([t`pieces.write_off`, unseen(` ${id}`)], () => writeOff(id), 'small')])));
}

function shelf(pieces) {
  const widest = Math.max(1, ...pieces.map(piece => piece.width));
  const cards = list('pieces', []);
  const of = state => (state === 'all' ? pieces : pieces.filter(piece => piece.state === state));
  const states = ['free', 'reserved', 'used', 'spoiled', 'all'].filter(state => of(state).length);
  if (!states.includes(shown)) shown = 'all';
  const renew = () => fill(cards, of(shown).map(piece => card(piece, widest)));
  const choices = states.map(state => choice({ type: 'radio', name: 'state', value: state, checked: state === shown },
    named('piece', state), h('span.count', of(state).length)));
  renew();
  return section(t`pieces.all`, h('fieldset.row', { onchange: event => {
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
  const set = await get('design-picture', { design: name }).catch(error => error.answer ?? {});
  const facts = [set.width > 0 && size(set), material, name === desk.shop.default_design && t`designs.default`, approval && t`designs.approval`];
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
  const found = item => [itemLink(item), inLine(item), h('bdi.by', item.customer), stateMark(item.state)];
  return leaf(t`search.title`,
    p(asked ? t('search.count', { n: items.length }) : t`search.nothing_asked`, asked && [' ', h('q', { dir: 'auto' }, asked)]),
    items.length > 0 && list('ruled', items, found));
};
