// In: what an export says that only a person can decide. Out: the question with its answers as buttons.
import { change, h, itemRow, list, press, question, row, said, t } from './voice.js';

const answers = { change: ['take', 'keep'], older: ['take', 'keep'], edit: ['take', 'keep', 'new'] };

async function give(one, answer) {
  // An answer that may write an engraved piece off is asked once more.
  if (one.kind === 'change' && answer === 'take' && one.items.some((item) => ['engraved', 'packed'].includes(item.state)) &&
      !(await question(t`question.lose.title`, t`question.lose.text`, t`question.change.take`))) return;
  await change('answer', { question: one.question, answer }, t`question.done`);
}

export function questionSlip(one) {
  const kind = one.kind in answers ? one.kind : 'change';
  return h('div.slip.question', said(`${one.asks.replace(/\?$/, '')}?`, 'p', 'words'),
    one.proposal && said(one.proposal, 'p', 'words'), list('ruled', one.items.map(itemRow)),
    row(answers[kind].map((answer) => press(t(`question.${kind}.${answer}`), () => give(one, answer)))));
}
