import type { Exercise } from '../../../../analysis/exercises/exercise.js';
import type { Stage } from '../../../../analysis/plan/plan.js';
import type { SetReport } from '../../../../analysis/report/setReport.js';
import { boutNames } from '../../words/boutNames.js';
import { dayText } from '../../words/days.js';
import { percentText, secondsText } from '../../words/numbers.js';
import { PLAIN_PHASE_WORDS } from '../../words/phaseWords.js';
import { stageInWords } from '../../words/planInWords.js';
import { loadWords } from '../../words/setWords.js';
import { html, type Markup } from '../layout/markup.js';
import { filmName, wordsOfPhases } from './wordsOfSet.js';

/** The plan in words, stage by stage. */
function planText(report: SetReport, words: Exercise['words'] | null): string {
  const stages = report.plan?.stages ?? [];
  if (stages.length === 0) return 'none given';
  // An absent `partials` may stand as undefined in a parsed report.
  return stages.map((stage) => stageInWords(stage as Stage, words ?? PLAIN_PHASE_WORDS)).join('; then ');
}

/** What the lifter and the history say about a set, which its film cannot tell. */
export interface AboutSet {
  readonly lifter?: string | null | undefined;
  readonly note?: string | null | undefined;
  readonly warmUp?: boolean | undefined;
  /** The day it was filmed, where the report does not say. */
  readonly filmed?: string | null | undefined;
  /** What was changed in it beside the measurement, in sentences. */
  readonly amendments?: readonly string[] | undefined;
}

function factOf(name: string, value: string | null): Markup | null {
  return value === null ? null : html`<div><dt>${name}</dt><dd>${value}</dd></div>`;
}

/** The answer first, then the few facts one looks for next. */
export function headerSection(
  report: SetReport,
  exerciseWords: Exercise['words'] | null,
  { lifter = null, note = null, warmUp = false, filmed = null, amendments = [] }: AboutSet,
): Markup {
  const words = wordsOfPhases(exerciseWords);
  const names = boutNames(report);
  const { recordedAt } = report.film;
  const day = recordedAt === null ? filmed : dayText(recordedAt);
  const over = [report.exercise.name, day, filmName(report)].filter((part) => part !== null);
  return html`<header class="top"><p class="overline">${over.join(' · ')}</p>
<h1>${report.headline}</h1>
<dl class="facts">
${factOf('Plan', planText(report, exerciseWords))}
${factOf('Load', loadWords({ load: report.load ?? null, stageLoads: report.stageLoads ?? null }) || null)}
${factOf('Warm-up', warmUp ? 'yes' : null)}
${factOf('Lifter', lifter)}
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
</dl>
${amendments.length === 0 ? null : html`<ul class="findings amended">${amendments.map((sentence) => html`<li class="warning">${sentence}</li>`)}</ul>`}</header>`;
}
