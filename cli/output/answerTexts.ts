import type { SetReport } from '../../analysis/report/setReport.js';
import { REP_CSV_HEADER, repsCsv } from '../views/tables/repsCsv.js';
import { setScreen } from '../views/terminal/setScreen.js';
import { PLAIN_STYLE, styleOf } from '../views/terminal/style.js';
import type { PhaseWords } from '../views/words/phaseWords.js';
import { jsonText } from './answerWriter.js';

interface AnswerForm {
  readonly format: 'text' | 'json' | 'csv';
  readonly output?: string | undefined;
}

/** How each report becomes text in the asked form; `several` reports follow one another. */
export function answerTexts(
  { format, output }: AnswerForm,
  several: boolean,
): (report: SetReport, words: PhaseWords) => string {
  let count = 0;
  switch (format) {
    case 'json':
      return (report) => jsonText(report, several);
    case 'csv':
      return (report) => `${count++ === 0 ? REP_CSV_HEADER : ''}${repsCsv(report)}`;
    case 'text': {
      const style = output === undefined ? styleOf(process.stdout) : PLAIN_STYLE;
      return (report, words) => {
        const screen = setScreen(report, words, style);
        return count++ === 0 ? screen : `\n${'─'.repeat(style.width)}\n\n${screen}`;
      };
    }
  }
}
