// In: a sheet, and an item that lies on it. Out: it lies in another pocket, on another piece, or waits again.
import { called, change, correct, field, get, question, select, showFault, t } from './voice.js';

/// Pockets that are free, and those whose items may change places.
const open = ({ pockets, places }) => new Map(pockets.map((pocket) => [pocket, places.find((one) => one.pocket === pocket && one.state !== 'withdrawn')])
  .filter(([, there]) => !there || there.state === 'on sheet'));

const move = (item, to) => change('move', { item: called(item), ...to }, t(`move.${to.pocket ? 'pocket' : 'piece'}.done`, { item, ...to }));

export async function moveItem(item, sheet) {
  const { pieces } = await get('suiting', { item: item.number });
  const pockets = [...open(sheet)].filter(([pocket]) => item.pocket && pocket !== item.pocket);
  const ways = [
    ...pockets.map(([pocket, there]) => [t(there ? 'move.swap' : 'move.free', { pocket, item: there?.item }), () => move(item, { pocket })]),
    ...pieces.map((piece) => [t('move.piece', { piece }), () => move(item, { piece })]),
    [t`move.off`, () => correct(item, 'take-off')]];
  const where = select('0', ways.map(([name], way) => [`${way}`, name]));
  if (await question(t('move.title', { item }), t`move.text`, t`move.go`, [field('move-where', t`move.where`, where)], '')) await ways[where.value][1]();
}

/// By mouse, pen or finger.
export function dragItems(bed, sheet) {
  const pockets = open(sheet);
  for (const node of bed.querySelectorAll('.pocket')) node.classList.toggle('movable', !!pockets.get(+node.dataset.pocket));
  let from, x, y, ghost, to;
  const aim = (node) => {
    to?.classList.remove('lit');
    to = node;
    to?.classList.add('lit');
  };
  const end = () => {
    aim();
    ghost?.remove();
    from?.classList.remove('left');
    from = ghost = null;
  };
  const on = (name, act) => bed.addEventListener(`pointer${name}`, act);
  on('down', (event) => {
    if (event.isPrimary && !event.button) [from, x, y] = [event.target.closest('.movable'), event.clientX, event.clientY];
  });
  on('move', ({ clientX, clientY, pointerId }) => {
    if (!from || (!ghost && Math.hypot(clientX - x, clientY - y) < 6)) return;  // px: less is a click
    if (!ghost) {
      bed.setPointerCapture(pointerId);
      ghost = from.cloneNode(true);
      ghost.classList.add('held');
      from.classList.add('left');
      from.parentNode.append(ghost);
    }
    const { a } = ghost.getScreenCTM();
    ghost.setAttribute('transform', `translate(${(clientX - x) / a} ${(clientY - y) / a})`);
    const under = document.elementFromPoint(clientX, clientY)?.closest('.bed .pocket');
    aim(under !== from && pockets.has(+under?.dataset.pocket) ? under : null);
  });
  on('up', () => {
    const item = pockets.get(+from?.dataset.pocket)?.item, pocket = +to?.dataset.pocket;
    end();
    if (item && pocket) move(item, { pocket }).catch(showFault);
  });
  on('cancel', end);
}
