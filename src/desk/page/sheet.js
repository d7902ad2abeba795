// In: the sheets, or the name of one. Out: their list, or its page: the bed, who lies in its pockets, what was engraved, what went
// wrong, its files.
import { wentWrong } from './item_acts.js';
import { called, change, choice, correct, done, field, fileLink, get, giver, h, heading, hint, itemLink, link, list, madeLink, named, numeral, onGiven, p, post, press, question, row, said, section, select, sentence, showFault, size, small, spread, stateMark, storyList, t, undoLast, unseen, view, words } from './voice.js';

/// What is pointed at in the picture is marked in the list, and the other way.
function lightUp(bed, places) {
  const find = (side, pocket) => side.querySelector(`[data-pocket="${pocket}"]`);
  const of = (event) => event.target.closest('[data-pocket]')?.dataset.pocket;
  const light = (pocket) => {
    for (const side of [bed, places]) {
      for (const node of side.querySelectorAll('.lit')) node.classList.remove('lit');
      if (pocket) find(side, pocket)?.classList.add('lit');
    }
  };
  for (const side of [bed, places]) {
    side.addEventListener('pointerover', (event) => light(of(event)));
    side.addEventListener('pointerleave', () => light());
  }
  places.addEventListener('focusin', (event) => light(of(event)));
  bed.addEventListener('click', (event) => find(places, of(event))?.querySelector('a').focus());
}

const lying = ({ places }, pocket) => places.find((one) => one.pocket === +pocket && one.state === 'on sheet')?.item;
const move = (item, to) => change('move', { item: called(item), ...to }, t('move.done', { item }));

async function moveItem(item, sheet) {
  const { pieces } = await get('suiting', { item: item.number });
  const ways = [
    ...sheet.pockets.filter((pocket) => pocket !== item.pocket).map((pocket) =>
      [t('move.pocket', { pocket, item: lying(sheet, pocket) ?? t`move.free` }), () => move(item, { pocket })]),
    ...pieces.map((piece) => [t('move.piece', { piece }), () => move(item, { piece })]),
    [t`move.off`, () => correct(item, 'take-off')]];
  const where = select('0', ways.map(([name], way) => [`${way}`, name]));
  if (await question(t('move.title', { item }), t`move.text`, t`move.go`, [field('move-where', t`move.where`, where)], '')) await ways[where.value][1]();
}

/// The same by mouse, pen or finger.
function dragItems(bed, sheet) {
  let from, item, x, y, ghost, to;
  const aim = (node) => {
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
    ontouchmove: (event) => item && event.preventDefault(),
  });
}

function placeLine({ pocket, state, piece, item }, sheet) {
  const act = (name, work) => press([t(name), unseen(` ${called(item)}`)], work, { id: `${name}-${pocket}`, class: 'small' });
  return h('li', { 'data-pocket': pocket }, h('span.pocket-number', unseen(`${t`sheet.pocket`} `), pocket),
    h('div', itemLink(item), ' ', stateMark(state), words(item.words), piece && small(t('item.piece', { piece }))),
    row(state === 'on sheet' && act('move', () => moveItem(item, sheet)),
      ['on sheet', 'engraved'].includes(state) && act('wrong', () => wentWrong({ ...item, piece: item.piece || piece }))));
}

function engravedForm(sheet, numbers) {
  const upTo = select('', [['', t`engraved.all`], ...numbers.slice(0, -1).map((pocket) => [String(pocket), t('engraved.up_to', { pocket })])]);
  return onGiven(h('form.inline', field('engraved-up-to', t`engraved.which`, upTo), giver(t`engraved.book`, 'main-act', 'book')), () => {
    const last = upTo.value;
    return change('engraved', { sheet: sheet.name, pockets: last && numbers.filter((pocket) => pocket <= Number(last)).join(',') },
      t(last ? 'engraved.some.done' : 'engraved.all.done', { sheet: sheet.name, pocket: last }));
  });
}

function stoppedForm(sheet, waiting) {
  const numbers = waiting.map((one) => one.pocket);
  const after = select('0', [['0', t`stopped.none`], ...numbers.map((pocket) => [String(pocket), t('stopped.after', { pocket })])]);
  const reason = sentence({ required: true, placeholder: t`stopped.example` });
  const lost = h('fieldset', h('legend', t`stopped.lost`), waiting.map(({ pocket, item }) =>
    choice({ type: 'checkbox', value: pocket }, t('stopped.pocket', { pocket, item }))));
  const form = h('form', field('stopped-after', t`stopped.when`, after), lost, field('stopped-reason', t`stopped.reason`, reason), row(giver(t`stopped.go`)));
  onGiven(form, async () => {
    const spoiled = [...lost.querySelectorAll(':checked')].map((box) => Number(box.value));
    const engraved = numbers.filter((pocket) => pocket <= Number(after.value) && !spoiled.includes(pocket));
    if (spoiled.length && !(await question(t('stopped.lose.title', { n: spoiled.length }), t('stopped.lose.text', { pockets: spoiled.join(', ') }), t`stopped.lose.yes`))) return;
    await change('resume', { sheet: sheet.name, done: engraved.join(','), spoiled: spoiled.join(','), reason: reason.value.trim() }, t('stopped.done', { sheet: sheet.name }));
  });
  return h('details', h('summary', t`stopped.title`), hint(t`stopped.hint`), form);
}

/// Made anew each time: what is still to be engraved changes.
async function loading({ name }) {
  const { account: { files: [file] } } = await post('loading', { sheet: name });
  madeLink('loading', file).click();
  done(t('loading.done', { file }));
}

const files = (sheet) => sheet.files?.length > 0 && section(t`sheet.files`, list('row', sheet.files.map((file) =>
  h('li', h('a', { href: fileLink(sheet.name, file), download: file.split('/').pop(), dir: 'ltr' }, file)))), hint(t`sheet.files.hint`));

export async function sheetPage({ name }) {
  const sheet = await get('sheet', { name });
  const bed = view(sheet.picture, t('sheet.picture', { sheet: sheet.name, n: sheet.places.length }));
  const places = h('ol.places', sheet.places.map((one) => placeLine(one, sheet)));
  lightUp(bed, places);
  dragItems(bed, sheet);
  const waiting = sheet.places.filter((one) => one.state === 'on sheet');
  return [sheet.name, spread('sheet',
    [h('header', heading(numeral(sheet.name)),
      h('p.facts', [named('kind', sheet.kind), size(sheet.width, sheet.height), !sheet.written && t`sheets.planned`].filter(Boolean).map((one) => h('span', one)))),
    sheet.stale && h('div.slip.held-slip', h('h2', t`sheet.stale`), said(sheet.stale, 'p')),
    h('figure.bed-figure', bed), sheet.pockets.length > 1 && hint(t`move.hint`), files(sheet)],
    [section(t`sheet.bed`, waiting.length ? [row(press(t`loading`, () => loading(sheet), { id: 'loading' })), engravedForm(sheet, waiting.map((one) => one.pocket)), stoppedForm(sheet, waiting)] : p(t`sheet.none_waits`),
      row(press(t`sheet.undo`, () => undoLast(sheet.name), { id: 'sheet-undo' }))),
    section(t`sheet.pockets`, places), storyList(sheet.story ?? [])])];
}

function standing({ written, waiting, engraved }) {
  if (!written) return t`sheets.planned`;
  if (waiting) return engraved ? t('sheets.some', { engraved, waiting }) : t('sheets.left', { n: waiting });
  return engraved ? t('sheets.all', { n: engraved }) : t`sheets.nothing`;
}
const line = (sheet) => [link('sheet', sheet.name), h('span.by', named('kind', sheet.kind)), standing(sheet),
  sheet.stale && said(sheet.stale, 'p', 'reason')];
const part = (name, some) => section(t(`sheets.${name}`), some.length ? list('ruled', some.map(line)) : p(t(`sheets.${name}.none`)));

export async function sheetsPage() {
  const { sheets } = await get('sheets');
  const isDue = (sheet) => sheet.waiting || sheet.stale || !sheet.written;
  return [t`sheets.title`, spread('', [heading(t`sheets.title`), part('due', sheets.filter(isDue))],
    part('past', sheets.filter((sheet) => !isDue(sheet)).reverse()))];
}
