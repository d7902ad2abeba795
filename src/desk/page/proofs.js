// In: what customers are to see, and what they have seen. Out: their plaques, pictures to send, and their yes or no.
import { smallPlaque } from './setter.js';
import { called, change, correct, desk, folded, get, given, giver, h, inLine, itemLink, leaf, list, madeLink, p, pages, press, reasonField, row, section, t } from './voice.js';
import { begin, proofsLink } from './work.js';

const noForm = (item) => folded(t`proofs.no`, h('form', given(({ reason }) => correct(item, 'hold', `${t`proofs.no.mark`}: ${reason.trim()}`)),
  reasonField(`no-${item.number}`, 'proofs.no'), row(giver(t`proofs.no.keep`))));

const card = ({ item }, ...acts) => h('li', smallPlaque(item), p(itemLink(item), ' ', h('bdi.by', item.customer)), p(inLine(item)), acts);

const asked = ({ item, file }) => card({ item },
  row(file && madeLink('proofs', file, t`proofs.picture`),
    press(t`act.approve`, () => change('approve', { items: [called(item)] }, t('act.approve.done', { item })), '', `yes-${item.number}`)),
  noForm(item));

pages.proofs = async () => {
  const { unseen, asked: shown, files } = await get('proofs');
  const all = () => begin('proofs', { items: unseen.map(({ item }) => called(item)), date: desk.shop.date });
  const part = (name, some, draw, ...more) => section(t(`proofs.${name}`),
    some.length ? [more, list('designs', some.map((one) => draw(one)))] : p(t(`proofs.${name}.none`)));
  return leaf(t`proofs.title`,
    part('asked', shown, asked, files.includes('proofs.pdf') && p(proofsLink())),
    part('unseen', unseen, card, row(press(t`proofs.make`, all, 'main-act', 'make-proofs'))));
};
