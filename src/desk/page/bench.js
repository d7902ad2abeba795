// In: what is made beside the plaques. Out: stock and stands, the board, plans for the saw, samples of the faces, each with its picture.
import { accountBox, alone, busy, change, desk, faultBox, faultOf, field, get, giver, h, heading, hint, input, list, madeLink, mm, onGiven, p, post, press, row, said, section, select, sentence, sendFile, size, slot, small, spread, t, view } from './voice.js';
import { begin, watched } from './work.js';

const turn = (here) => h('p.row', ['stock', 'board', 'panes', 'faces'].map((name) =>
  h('a', { href: `#/${name}`, 'aria-current': name === here && 'page' }, t(`${name}.title`))));
const made = (folder, files) => files?.length > 0 && section(t`proofs.files`, list('row', files.map((name) => h('li', madeLink(folder, name)))));

/// A picture that follows what is chosen; a Fault stands in its place. draw: what was answered → nodes.
function following(path, ask, draw) {
  const node = h('div');
  const look = async () => {
    try {
      node.replaceChildren(...draw(await get(path, ask())));
    } catch (error) {
      node.replaceChildren(faultBox(faultOf(error)));
    }
  };
  return [node, look, look()];
}

export async function stockPage() {
  const { account } = await get('stock');
  const count = input('number', { min: 1, max: 10000, inputmode: 'numeric' });
  const date = input('date', { required: true, value: desk.shop.date });
  const [picture, look, first] = following('stand', () => ({ date: date.value }),
    (stand) => [view(stand.picture, t('stands.picture', { date: date.value })), small(size(stand.width, stand.height))]);
  date.addEventListener('change', look);
  await first;
  const form = h('form', h('div.pair', field('stand-count', t`stands.count`, count, t`stands.count.hint`), field('stand-date', t`stands.date`, date)),
    row(giver(t`stands.make`, 'main-act')));
  onGiven(form, () => begin('stands', { date: date.value, ...(count.value && { count: Number(count.value) }) }));
  return [t`stock.title`, spread('', [heading(t`stock.title`), turn('stock'), section(t`stock.left`, accountBox(account))],
    section(t`stands.title`, p(t`stands.about`), picture, form))];
}

export async function boardPage() {
  const design = select(desk.shop.default_design, desk.shop.designs.map((one) => [one.name, one.name]));
  const files = h('div');
  const [picture, look, first] = following('board', () => ({ design: design.value }), (board) => {
    files.replaceChildren(made('jig', board.files) || '');
    return [view(board.picture, t('board.picture', { n: board.pockets })), small(size(board.width, board.height), ' · ', t('board.holes', { n: board.pockets, size: size(board.hole_width, board.hole_height) }))];
  });
  design.addEventListener('change', look);
  await first;
  const make = () => change('board', { design: design.value }, t`board.made`);
  return [t`board.title`, spread('', [heading(t`board.title`), turn('board'), h('figure.bed-figure', picture)],
    [p(t`board.about`), field('board-design', t`fit.design`, design), row(press(t`board.make`, make, { class: 'main-act', id: 'make-board' })), files])];
}

export async function panesPage() {
  const { panes, files } = await get('panes');
  const piece = input('text', { dir: 'ltr', maxlength: 30, autocomplete: 'off' });
  const kerf = input('number', { min: 0, max: 50, step: 'any', value: 3 });
  const plan = (file) => sendFile('panes', file, true, { piece: piece.value.trim(), kerf: kerf.value }).then(watched);
  return [t`panes.title`, alone(heading(t`panes.title`), turn('panes'), p(t`panes.about`),
    h('div.pair', field('pane-piece', t`panes.piece`, piece, t`panes.piece.hint`), field('pane-kerf', t`panes.kerf`, kerf, t`panes.kerf.hint`)),
    slot('panes-file', (file, from) => busy(from, t`panes.planning`, () => plan(file)), 'panes'), made('panes', files),
    panes.length > 0 && section(t`panes.plans`, list('designs', panes.map(({ id, picture, width, height, pieces, cuts }) =>
      h('li', view(picture, t('panes.picture', { pane: id })), h('h3', { dir: 'ltr' }, id), small(size(width, height), ' · ', t('panes.yield', { pieces, cuts })))))))];
}

export async function facesPage() {
  const words = sentence({ required: true, maxlength: 120 });
  const faces = h('div');
  const show = async () => {
    const seen = await get('faces', { words: words.value });
    words.value ||= seen.words;
    faces.replaceChildren(list('faces', seen.faces.map(({ name, use, picture, least, cannot }) => h('li', h('h3', { dir: 'ltr' }, name),
      picture ? view(picture, t('faces.picture', { face: name })) : said(cannot, 'p', 'reason'), small(use && said(use), use && least > 0 && ' · ', least > 0 && t('faces.least', { mm: mm(least) }))))),
    made('specimen', seen.files) || '');
  };
  await show();
  return [t`faces.title`, alone(heading(t`faces.title`), turn('faces'), p(t`faces.about`),
    onGiven(h('form.inline', field('face-words', t`faces.words`, words), giver(t`faces.show`, 'main-act')), show),
    row(press(t`faces.print`, () => begin('specimen', { words: words.value }), { id: 'make-specimen' })), faces)];
}
