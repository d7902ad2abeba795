// In: a sheet, and an item that lies on it. Out: it lies in another pocket, on another piece, or waits again.
import { called, change, correct, field, get, question, select, showFault, t } from './voice.js';

/// Pockets that are free, and those whose items may change places.
const open = ({ pockets, places }) => new Map(pockets.map((pocket) => [pocket, places.find((one) => one.pocket === pocket && one.state !== 'withdrawn')])
  .filter(([, there]) => !there || there.state === 'on sheet'));

const move = (item, to, what) => change('move', { item: called(item), ...to }, t(`move.${what}.done`, { item, ...to }));

export async function moveItem(item, sheet) {
  const { pieces } = await get('suiting', { item: item.number });
  const pockets = [...open(sheet)].filter(([pocket]) => item.pocket && pocket !== item.pocket);
  const ways = [
    ...pockets.map(([pocket, there]) => [t(there ? 'move.swap' : 'move.free', { pocket, item: there?.item }), () => move(item, { pocket }, 'pocket')]),
    ...pieces.map((piece) => [t('move.piece', { piece }), () => move(item, { piece }, 'piece')]),
    [t`move.off`, () => correct(item, 'take-off')]];
  const where = select('0', ways.map(([name], way) => [String(way), name]));
  where.name = 'way';
  const chosen = await question(t('move.title', { item }), t`move.text`, t`move.go`, [field('move-where', t`move.where`, where)], '');
  if (chosen) await ways[chosen.way][1]();
}

const least = 6;  // px: less is a click

/// By mouse, pen or finger.
export function dragItems(bed, sheet) {
  const pockets = open(sheet);
  const nodeOf = (pocket) => bed.querySelector(`[data-pocket="${pocket}"]`);
  for (const [pocket, there] of pockets) if (there) nodeOf(pocket)?.classList.add('movable');
  let held, aim;
  const at = (node) => {
    aim?.classList.remove('lit');
    aim = node;
    aim?.classList.add('lit');
  };
  const letGo = () => {
    at();
    held?.ghost?.remove();
    held?.node.classList.remove('left');
    held = null;
  };
  bed.addEventListener('pointerdown', (event) => {
    const node = event.target.closest('.movable');
    if (node && event.isPrimary && !event.button) held = { node, x: event.clientX, y: event.clientY };
  });
  bed.addEventListener('pointermove', (event) => {
    if (!held) return;
    const [across, down] = [event.clientX - held.x, event.clientY - held.y];
    if (!held.ghost) {
      if (Math.hypot(across, down) < least) return;
      bed.setPointerCapture(event.pointerId);
      held.ghost = held.node.cloneNode(true);
      held.ghost.classList.add('held');
      held.node.classList.add('left');
      held.node.parentNode.append(held.ghost);
    }
    const { a } = held.ghost.ownerSVGElement.getScreenCTM();
    held.ghost.setAttribute('transform', `translate(${across / a} ${down / a})`);
    const under = document.elementFromPoint(event.clientX, event.clientY)?.closest('.bed .pocket');
    at(under !== held.node && pockets.has(Number(under?.dataset.pocket)) ? under : null);
  });
  bed.addEventListener('pointerup', () => {
    const from = pockets.get(Number(held?.node.dataset.pocket)), to = aim?.dataset.pocket;
    letGo();
    if (from && to) move(from.item, { pocket: Number(to) }, 'pocket').catch(showFault);
  });
  bed.addEventListener('pointercancel', letGo);
}
