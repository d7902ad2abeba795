// In: what customers are to see, and what they have seen. Out: their plaques, pictures to send, and their yes or no.
import { smallPlaque } from './setter.js';
import { alone, called, change, correct, desk, field, get, giver, h, heading, inLine, itemLink, list, madeLink, onGiven, p, press, row, section, sentence, t } from './voice.js';
import { begin, proofsLink } from './work.js';

function noForm(item) {
  const reason = sentence({ required: true, placeholder: t`proofs.no.example` });
  return h('details', h('summary', t`proofs.no`), onGiven(
    h('form', field(`no-${item.number}`, t`proofs.no.reason`, reason), row(giver(t`proofs.no.keep`))),
    () => correct(item, 'hold', `${t`proofs.no.mark`}: ${reason.value.trim()}`)));
}

const card = ({ item }, ...acts) => h('li', smallPlaque(item), p(itemLink(item), ' ', h('bdi.by', item.customer)), p(inLine(item)), acts);

const asked = ({ item, file }) => card({ item },
  row(file && madeLink('proofs', file, t`proofs.picture`),
    press(t`act.approve`, () => change('approve', { items: [called(item)] }, t('act.approve.done', { item })), { id: `yes-${item.number}` })),
  noForm(item));

export async function proofsPage() {
  const { unseen, asked: shown, files } = await get('proofs');
  const all = () => begin('proofs', { items: unseen.map(({ item }) => called(item)), date: desk.shop.date });
  const part = (name, some, draw, ...more) => section(t(`proofs.${name}`),
    some.length ? [more, list('designs', some.map((one) => draw(one)))] : p(t(`proofs.${name}.none`)));
  return [t`proofs.title`, alone(heading(t`proofs.title`),
    part('asked', shown, asked, files.includes('proofs.pdf') && p(proofsLink())),
    part('unseen', unseen, card, row(press(t`proofs.make`, all, { class: 'main-act', id: 'make-proofs' }))))];
}
