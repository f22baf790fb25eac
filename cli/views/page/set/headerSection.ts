import type { Exercise } from '../../../../analysis/exercises/exercise.js';
import type { Stage } from '../../../../analysis/plan/plan.js';
import type { SetReport } from '../../../../analysis/report/setReport.js';
import { boutNames } from '../../words/boutNames.js';
import { PLAIN_PHASE_WORDS } from '../../words/phaseWords.js';
import { stageInWords } from '../../words/planInWords.js';
import { loadWords } from '../../words/setWords.js';
import { html, type Markup } from '../layout/markup.js';
import { percentText, secondsText } from '../layout/numbers.js';
import { filmName, wordsOfPhases } from './wordsOfSet.js';

/** The plan in words, stage by stage. */
function planText(report: SetReport, words: Exercise['words'] | null): string {
  const stages = report.plan?.stages ?? [];
  if (stages.length === 0) return 'none given';
  // An absent `partials` may stand as undefined in a parsed report.
  return stages.map((stage) => stageInWords(stage as Stage, words ?? PLAIN_PHASE_WORDS)).join('; then ');
}

function factOf(name: string, value: string | null): Markup | null {
  return value === null ? null : html`<div><dt>${name}</dt><dd>${value}</dd></div>`;
}

/** The answer first, then the few facts one looks for next. */
export function headerSection(
  report: SetReport,
  exerciseWords: Exercise['words'] | null,
  note: string | null,
): Markup {
  const words = wordsOfPhases(exerciseWords);
  const names = boutNames(report);
  const day = report.film.recordedAt?.slice(0, 10) ?? null;
  const over = [report.exercise.name, day, filmName(report)].filter((part) => part !== null);
  return html`<header class="top"><p class="overline">${over.join(' · ')}</p>
<h1>${report.headline}</h1>
<dl class="facts">
${factOf('Plan', planText(report, exerciseWords))}
${factOf('Load', loadWords({ load: report.load ?? null, stageLoads: report.stageLoads ?? null }) || null)}
${report.bouts.map((bout, index) => {
  const { summary } = bout;
  const odd = [
    summary.partialReps > 0 ? `${summary.partialReps} partial` : '',
    summary.failedReps > 0 ? `${summary.failedReps} failed` : '',
  ].filter((part) => part !== '');
  const delivered =
    summary.deliveredLoweringShare === null
      ? ''
      : `, ${percentText(summary.deliveredLoweringShare)} of the planned ${words.eccentric} time`;
  return factOf(
    names[index]!,
    `${summary.completeReps} reps${odd.length === 0 ? '' : ` (${odd.join(', ')})`} in ${secondsText(summary.timeUnderTensionSeconds, 0)}${delivered}`,
  );
})}
${factOf('Note', note)}
</dl></header>`;
}
