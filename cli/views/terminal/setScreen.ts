import { CAUTION_IN_SHORT } from '../../../analysis/report/cautions.js';
import type { BoutReport, SetReport } from '../../../analysis/report/setReport.js';
import { type PhaseWords, PLAIN_PHASE_WORDS } from '../words/phaseWords.js';
import { stageInWords } from '../words/planInWords.js';
import { loadWords } from '../words/setWords.js';
import { VERDICT_LEGEND, VERDICTS } from '../words/verdicts.js';
import { boutLines } from './boutLines.js';
import { findingLines } from './findingLines.js';
import { repTables } from './repTable.js';
import { restLines } from './restLines.js';
import type { Style } from './style.js';
import { symmetryLines } from './symmetryLines.js';
import { wrapped } from './wrapped.js';

/**
 * A set report as text for the terminal: the answer in one sentence first, then the plan, the reps, what stands
 * out, what the film could not tell, and one line of caution.
 *
 * @param words the exercise's own words for the phases, where the exercise is known here
 */
export function setScreen(report: SetReport, words: PhaseWords | null, style: Style): string {
  const phaseWords = words ?? PLAIN_PHASE_WORDS;
  const { colors, width } = style;
  const tables = repTables(report.bouts, { plan: report.plan, words: phaseWords, style });
  const blocks = [
    colors.bold(wrapped(report.headline, width)),
    aboutLines(report, phaseWords, style),
    ...report.bouts.map((bout, index) =>
      boutBlock([boutTitle(report, bout, index, style), tables[index]!, boutLines(bout, phaseWords, style)]),
    ),
    legendOf(report, style),
    restLines(report, style),
    symmetryLines(report, phaseWords, style),
    findingLines(report, style),
    colors.dim(wrapped(CAUTION_IN_SHORT, width)),
  ];
  return `${blocks.filter((block) => block !== '').join('\n\n')}\n`;
}

/** The film, the exercise, and the plan said back in words, so that a misread plan is seen at once. */
function aboutLines(report: SetReport, words: PhaseWords, { width }: Style): string {
  const lines = [wrapped(`${report.exercise.name}, ${report.film.file}${loadText(report)}`, width)];
  const stages = report.plan?.stages ?? [];
  stages.forEach((stage, index) => {
    const name = stages.length === 1 ? 'Plan' : `Plan, stage ${index + 1}`;
    lines.push(wrapped(`${stageInWords(stage, words)}.`, width, `${name}: `));
  });
  if (report.exercise.confirmed === false)
    lines.push('Times are shown, not judged, until the exercise is named.');
  else if (stages.length === 0) lines.push('No plan was given: times are shown, not judged.');
  return lines.join('\n');
}

/** What range is held against: a bout's own first reps, or the lifter's earlier sets. */
function baselineInWords({ bouts }: SetReport): string {
  const fromEarlier = bouts.map((bout) => typeof bout.summary.baselineEarlierSets === 'number');
  if (fromEarlier.every((one) => one)) return 'your earlier sets';
  return fromEarlier.some((one) => one) ? 'the first reps or your earlier sets' : 'the first reps';
}

function loadText({ load, stageLoads }: SetReport): string {
  const words = loadWords({ load: load ?? null, stageLoads: stageLoads ?? null });
  return words === '' ? '' : `, ${words}`;
}

function boutBlock(parts: readonly string[]): string {
  return parts.filter((part) => part !== '').join('\n');
}

function boutTitle(report: SetReport, bout: BoutReport, index: number, { colors, width }: Style): string {
  const side = { left: 'Left side', right: 'Right side', both: 'Both sides' }[bout.side];
  const name = report.bouts.length > 1 ? `${index + 1}. ${side}` : side;
  return colors.bold(wrapped(`${name}, ${viewInWords(bout)}`, width));
}

/** The side of the lifter that the camera sees, and how squarely. */
function viewInWords(bout: BoutReport): string {
  const { facing, degreesOffSide } = bout.view;
  const off = Math.round(degreesOffSide);
  if (facing === 'front') return 'seen from the front';
  if (facing === 'back') return 'seen from behind';
  return off < 10 ? `seen from the ${facing}` : `seen from the ${facing}, ${off}° off square`;
}

function legendOf(report: SetReport, { colors, width }: Style): string {
  const judged = report.bouts.some((bout) =>
    bout.reps.some((rep) => rep.phases.some((phase) => phase.verdict !== null)),
  );
  const shortened = report.bouts.some((bout) => bout.reps.some((rep) => rep.range?.shortened === true));
  const lines = report.bouts.some((bout) => bout.reps.length > 0)
    ? ['Seconds, with the half width of the 95 % interval.']
    : [];
  if (judged) lines.push(VERDICT_LEGEND);
  if (shortened)
    lines.push(
      `${VERDICTS.short.sign} in Range: shorter than ${baselineInWords(report)}, as a share of their range.`,
    );
  return lines.map((line) => colors.dim(wrapped(line, width))).join('\n');
}
