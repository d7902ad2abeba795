// In: what is made beside the plaques. Out: stock and stands, the board, plans for the saw, samples of the faces, each with its picture.
import { accountBox, begin, busy, change, desk, faultBox, faultOf, field, fill, get, given, giver, h, input, leaf, leaves, length, list, listed, madeLink, mm, p, pages, press, reasonLine, row, said, section, select, sendFile, sentence, size, slot, small, t, view, watched } from './voice.js';

const turn = (here) => h('p.row', ['stock', 'board', 'panes', 'faces'].map((name) =>
  h('a', { href: `#/${name}`, 'aria-current': name === here && 'page' }, t(`${name}.title`))));
const made = (folder, files) => listed(t`proofs.files`, 'row', files, (name) => h('li', madeLink(folder, name)));

/// A picture that follows what is chosen; a Fault stands in its place. draw: what was answered → nodes.
function following(path, ask, draw) {
  const node = h('div');
  const look = async () => {
    try {
      fill(node, draw(await get(path, ask())));
    } catch (error) {
      fill(node, faultBox(faultOf(error)));
    }
  };
  return [node, look, look()];
}

pages.stock = async () => {
  const { account } = await get('stock');
  const count = input('number', { min: 1, max: 10000, inputmode: 'numeric' });
  const date = input('date', { required: true, value: desk.shop.date });
  const [picture, look, first] = following('stand', () => ({ date: date.value }),
    (stand) => [view(stand.picture, t('stands.picture', { date: date.value })), small(size(stand.width, stand.height))]);
  date.onchange = look;
  await first;
  const make = () => begin('stands', { date: date.value, ...(count.value && { count: Number(count.value) }) });
  const form = h('form', given(make), h('div.pair', field('stand-count', t`stands.count`, count, t`stands.count.hint`), field('stand-date', t`stands.date`, date)),
    row(giver(t`stands.make`, 'main-act')));
  return leaves(t`stock.title`, '', [turn('stock'), section(t`stock.left`, accountBox(account))],
    section(t`stands.title`, p(t`stands.about`), picture, form));
};

pages.board = async () => {
  const design = select(desk.shop.default_design, desk.shop.designs.map((one) => one.name));
  const files = h('div');
  const [picture, look, first] = following('board', () => ({ design: design.value }), (board) => {
    fill(files, made('jig', board.files));
    return [view(board.picture, t('board.picture', { n: board.pockets })), small(size(board.width, board.height), ' · ', t('board.holes', { n: board.pockets, size: size(board.hole_width, board.hole_height) }))];
  });
  design.onchange = look;
  await first;
  const make = () => change('board', { design: design.value }, t`board.made`);
  return leaves(t`board.title`, '', [turn('board'), h('figure.bed-figure', picture)],
    [p(t`board.about`), field('board-design', t`fit.design`, design), row(press(t`board.make`, make, 'main-act', 'make-board')), files]);
};

pages.panes = async () => {
  const { panes, files } = await get('panes');
  const piece = input('text', { dir: 'ltr', maxlength: 30, autocomplete: 'off' });
  const kerf = length({ min: 0, max: 50, value: 3 });
  const plan = (file) => sendFile('panes', file, true, { piece: piece.value.trim(), kerf: kerf.value }).then(watched);
  return leaf(t`panes.title`, turn('panes'), p(t`panes.about`),
    h('div.pair', field('pane-piece', t`panes.piece`, piece, t`panes.piece.hint`), field('pane-kerf', t`panes.kerf`, kerf, t`panes.kerf.hint`)),
    slot('panes-file', (file, from) => busy(from, t`panes.planning`, () => plan(file)), 'panes'), made('panes', files),
    listed(t`panes.plans`, 'designs', panes, ({ id, picture, width, height, pieces, cuts }) =>
      h('li', view(picture, t('panes.picture', { pane: id })), h('h3', { dir: 'ltr' }, id), small(size(width, height), ' · ', t('panes.yield', { pieces, cuts })))));
};

pages.faces = async () => {
  const words = sentence({ required: true, maxlength: 120 }), faces = h('div');
  const show = async () => {
    const seen = await get('faces', { words: words.value });
    words.value ||= seen.words;
    fill(faces, list('faces', seen.faces, ({ name, use, picture, least, cannot }) => h('li', h('h3', { dir: 'ltr' }, name),
      picture ? view(picture, t('faces.picture', { face: name })) : reasonLine(cannot), small(use && said(use), use && least > 0 && ' · ', least > 0 && t('faces.least', { mm: mm(least) })))),
    made('specimen', seen.files));
  };
  await show();
  return leaf(t`faces.title`, turn('faces'), p(t`faces.about`),
    h('form.inline', given(show), field('face-words', t`faces.words`, words), giver(t`faces.show`, 'main-act')),
    row(press(t`faces.print`, () => begin('specimen', { words: words.value }), '', 'make-specimen')), faces);
};
