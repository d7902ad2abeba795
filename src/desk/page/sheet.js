// In: the sheets, or the name of one. Out: their list, or its page: bed, pockets, what was engraved, files.
import { wentWrong } from './item.js';
import { called, change, choice, correct, factsLine, field, filePath, folded, get, given, giver, h, heading, hint, itemLink, leaves, link, list, listed, named, numeral, p, pages, paper, press, question, reasonField, reasonLine, row, said, section, select, showFault, size, small, stateMark, storyList, t, undoLast, unseen, view, words } from './voice.js';

/// What is pointed at is marked in the picture and in the list.
function lightUp(bed, places) {
  const of = ({ target }) => target.closest('[data-pocket]')?.dataset.pocket;
  const light = event => [bed, places].forEach(side => side.querySelectorAll('[data-pocket]').forEach(node =>
    node.classList.toggle('lit', node.dataset.pocket === of(event))));
  for (const side of [bed, places]) side.onpointerover = side.onpointerleave = light;
  places.addEventListener('focusin', light);
  bed.onclick = event => places.querySelector(`[data-pocket="${of(event)}"] a`)?.focus();
}

const lying = ({ places }, pocket) => places.find(one => one.pocket === +pocket && one.state === 'on sheet')?.item;
const move = (item, to) => change('move', { item: called(item), ...to }, t('move.done', { item }));

async function moveItem(item, sheet) {
  const { pieces } = await get('suiting', { item: item.number });
  const ways = [
    ...sheet.pockets.filter(pocket => pocket !== item.pocket).map(pocket =>
      [t('move.pocket', { pocket, item: lying(sheet, pocket) ?? t`move.free` }), () => move(item, { pocket })]),
    ...pieces.map(piece => [t('move.piece', { piece }), () => move(item, { piece })]),
    [t`move.off`, () => correct(item, 'take-off')]];
  const where = select(0, ways.map(([name], way) => [way, name]));
  if (await question(t('move.title', { item }), t`move.text`, t`move.go`, [field('move-where', t`move.where`, where)], '')) await ways[where.value][1]();
}

function dragItems(bed, sheet) {
  let from, item, x, y, ghost, to;
  const aim = node => {
    to?.classList.remove('lit');
    to = node;
    to?.classList.add('lit');
  };
  const end = () => {
    aim();
    ghost?.remove();
    item = ghost = null;
  };
  Object.assign(bed, {
    onpointerdown(event) {
      from = event.target.closest('.pocket');
      item = event.isPrimary && !event.button && from && lying(sheet, from.dataset.pocket);
      [x, y] = [event.clientX, event.clientY];
    },
    onpointermove({ clientX, clientY, pointerId }) {
      const [across, down] = [clientX - x, clientY - y];
      if (!item || (!ghost && Math.hypot(across, down) < 6)) return;  // px: less is a click
      if (!ghost) {
        bed.setPointerCapture(pointerId);
        ghost = from.cloneNode(true);
        ghost.style.pointerEvents = 'none';
        from.parentNode.append(ghost);
      }
      const { a } = ghost.getScreenCTM();
      ghost.setAttribute('transform', `translate(${across / a} ${down / a})`);
      const under = document.elementFromPoint(clientX, clientY)?.closest('.bed .pocket');
      aim(under !== from && sheet.pockets.includes(+under?.dataset.pocket) ? under : null);
    },
    onpointerup() {
      if (to) move(item, { pocket: +to.dataset.pocket }).catch(showFault);
      end();
    },
    onpointercancel: end,
    ontouchmove: event => item && event.preventDefault(),
  });
}

function placeLine({ pocket, state, piece, item }, sheet) {
  const act = (name, work) => press([t(name), unseen(` ${called(item)}`)], work, 'small', `${name}-${pocket}`);
  return h('li', { 'data-pocket': pocket }, h('span.pocket-number', unseen(`${t`sheet.pocket`} `), pocket),
    h('div', itemLink(item), ' ', stateMark(state), words(item.words), piece && small(t('item.piece', { piece }))),
    row(state === 'on sheet' && act('move', () => moveItem(item, sheet)),
      ['on sheet', 'engraved'].includes(state) && act('wrong', () => wentWrong({ ...item, piece: item.piece || piece }))));
}

function engravedForm(sheet, numbers) {
  const upTo = select('', [['', t`engraved.all`], ...numbers.slice(0, -1).map(pocket => [pocket, t('engraved.up_to', { pocket })])]);
  const book = () => {
    const last = upTo.value;
    return change('engraved', { sheet: sheet.name, pockets: last && numbers.filter(pocket => pocket <= +last).join(',') },
      t(last ? 'engraved.some.done' : 'engraved.all.done', { sheet: sheet.name, pocket: last }));
  };
  return h('form.inline', given(book), field('engraved-up-to', t`engraved.which`, upTo), giver(t`engraved.book`, 'main-act', 'book'));
}

function stoppedForm(sheet, waiting) {
  const numbers = waiting.map(one => one.pocket);
  const after = select(0, [[0, t`stopped.none`], ...numbers.map(pocket => [pocket, t('stopped.after', { pocket })])]);
  const lost = h('fieldset', h('legend', t`stopped.lost`), waiting.map(({ pocket, item }) =>
    choice({ type: 'checkbox', value: pocket }, t('stopped.pocket', { pocket, item }))));
  const resume = async ({ reason }) => {
    const spoiled = [...lost.querySelectorAll(':checked')].map(box => +box.value);
    const engraved = numbers.filter(pocket => pocket <= +after.value && !spoiled.includes(pocket));
    if (spoiled.length && !(await question(t('stopped.lose.title', { n: spoiled.length }), t('stopped.lose.text', { pockets: spoiled.join(', ') }), t`stopped.lose.yes`))) return;
    await change('resume', { sheet: sheet.name, done: engraved.join(','), spoiled: spoiled.join(','), reason: reason.trim() }, t('stopped.done', { sheet: sheet.name }));
  };
  return folded(t`stopped.title`, hint(t`stopped.hint`), h('form', given(resume),
    field('stopped-after', t`stopped.when`, after), lost, reasonField('stopped-reason', 'stopped'), row(giver(t`stopped.go`))));
}

const files = sheet => sheet.files?.length > 0 && section(t`sheet.files`, list('row', sheet.files, file => h('a', { href: filePath({ sheet: sheet.name, name: file }), download: file.split('/').pop(), dir: 'ltr' }, file)), hint(t`sheet.files.hint`));

pages.sheet = async ({ name }) => {
  const sheet = await get('sheet', { name });
  const bed = view(sheet.picture, t('sheet.picture', { sheet: sheet.name, n: sheet.places.length }));
  const places = h('ol.places', sheet.places.map(one => placeLine(one, sheet)));
  lightUp(bed, places);
  dragItems(bed, sheet);
  const waiting = sheet.places.filter(one => one.state === 'on sheet');
  return leaves(sheet.name, [sheet.stale && h('div.slip.held-slip', h('h2', t`sheet.stale`), said(sheet.stale, 'p')),
    h('figure.bed-figure', bed), sheet.pockets.length > 1 && hint(t`move.hint`), files(sheet)],
    [section(t`sheet.bed`, sheet.time && said(sheet.time, 'p'), waiting.length ? [row(paper('loading', { sheet: sheet.name }, t`loading`)), engravedForm(sheet, waiting.map(one => one.pocket)), stoppedForm(sheet, waiting)] : p(t`sheet.none_waits`),
      row(press(t`sheet.undo`, () => undoLast(sheet.name), '', 'sheet-undo'))),
    section(t`sheet.pockets`, places), storyList(sheet.story ?? [])],
    'sheet', heading(numeral(sheet.name), factsLine(named('kind', sheet.kind), size(sheet), !sheet.written && t`sheets.planned`)));
};

function standing({ written, waiting, engraved }) {
  if (!written) return t`sheets.planned`;
  if (waiting) return engraved ? t('sheets.some', { engraved, waiting }) : t('sheets.left', { n: waiting });
  return engraved ? t('sheets.all', { n: engraved }) : t`sheets.nothing`;
}
const line = sheet => [link('sheet', sheet.name), h('span.by', named('kind', sheet.kind)), standing(sheet), reasonLine(sheet.stale)];
const part = (name, some) => listed(t(`sheets.${name}`), 'ruled', some, line, t(`sheets.${name}.none`));

pages.sheets = async () => {
  const { sheets } = await get('sheets');
  const isDue = sheet => sheet.waiting || sheet.stale || !sheet.written;
  return leaves(t`sheets.title`, part('due', sheets.filter(isDue)), part('past', sheets.filter(sheet => !isDue(sheet)).reverse()));
};
