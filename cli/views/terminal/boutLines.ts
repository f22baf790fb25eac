import type { BoutReport } from '../../../analysis/report/setReport.js';
import { slowedBeyondDoubt } from '../../../analysis/scoring/fatigue.js';
import { repsInWords } from '../../../analysis/scoring/firstOfTwoInARow.js';
import { loneShortenedReps } from '../../../analysis/scoring/range.js';
import { counted } from '../words/grammar.js';
import { decimal, degreesText, percentText } from '../words/numbers.js';
import type { PhaseWords } from '../words/phaseWords.js';
import type { Style } from './style.js';
import { wrapped } from './wrapped.js';

/** What the bout comes to, one line a measure. */
export function boutLines(bout: BoutReport, words: PhaseWords, { width }: Style): string {
  return [
    repCountLine(bout),
    loweringLine(bout, words),
    rangeLine(bout),
    tensionLine(bout),
    speedLine(bout),
    sidesLine(bout),
    leadingLine(bout),
    ...switchLines(bout),
  ]
    .filter((line) => line !== '')
    .map((line) => wrapped(line, width))
    .join('\n');
}

function repCountLine({ summary, reps }: BoutReport): string {
  const parts = [counted(summary.completeReps, 'complete rep')];
  if (summary.partialReps > 0) parts.push(`${summary.partialReps} partial`);
  if (summary.failedReps > 0) parts.push(`${summary.failedReps} failed`);
  const cut = reps.filter((rep) => !rep.complete).length;
  if (cut > 0) parts.push(`${cut} cut by the film`);
  return `${parts.join(', ')}.`;
}

function loweringLine({ summary }: BoutReport, words: PhaseWords): string {
  if (summary.deliveredLoweringShare === null) return '';
  const { deliveredLoweringSeconds: delivered, plannedLoweringSeconds: planned } = summary;
  const share = percentText(summary.deliveredLoweringShare);
  const amount =
    delivered == null || planned == null
      ? `${share} of the planned ${words.eccentric} seconds delivered`
      : `${decimal(delivered, 1)} of ${decimal(planned, 1)} planned ${words.eccentric} seconds delivered (${share})`;
  const last = summary.lastControlledRep;
  return last === null ? `${amount}.` : `${amount}; last controlled rep: ${last}.`;
}

function rangeLine({ summary, reps }: BoutReport): string {
  const baseline = summary.baselineRangeDegrees;
  const earlier = summary.baselineEarlierSets ?? null;
  const whose = earlier === null ? 'the first reps' : `your earlier sets (${earlier})`;
  const parts = baseline == null ? [] : [`Range of ${whose} ${degreesText(baseline)}`];
  if (summary.firstShortenedRep !== null) {
    const end = reps.find((rep) => rep.number === summary.firstShortenedRep)?.range?.shortenedAt ?? null;
    parts.push(`shortened from rep ${summary.firstShortenedRep}${endInWords(end)}`);
  } else if (baseline != null) {
    const lone = loneShortenedReps(reps);
    parts.push(lone.length === 0 ? 'held throughout' : `held but for ${repsInWords(lone)}`);
  }
  if (parts.length === 0) return '';
  const text = parts.join('; ');
  return `${text.charAt(0).toUpperCase()}${text.slice(1)}.`;
}

function endInWords(end: 'stretched' | 'contracted' | 'both' | null): string {
  if (end === null) return '';
  return end === 'both' ? ' at both ends' : ` at the ${end} end`;
}

function tensionLine({ summary }: BoutReport): string {
  return `Time under tension ${decimal(summary.timeUnderTensionSeconds, 1)} s.`;
}

function speedLine({ summary, reps }: BoutReport): string {
  if (summary.concentricSpeedLoss === null || !slowedBeyondDoubt(reps)) return '';
  return `The last lift was ${percentText(summary.concentricSpeedLoss)} slower than the quickest; effort and fatigue look alike on film.`;
}

function sidesLine({ sides }: BoutReport): string {
  const told = (sides ?? []).flatMap(({ side, rangeDegrees, uncertaintyDegrees }) =>
    rangeDegrees === null || uncertaintyDegrees === null
      ? []
      : [`${side} ${degreesText(rangeDegrees)} ±${uncertaintyDegrees.toFixed(0)}`],
  );
  return told.length < 2 ? '' : `Range of each side: ${told.join(', ')}.`;
}

function leadingLine({ leadingSide }: BoutReport): string {
  if (leadingSide == null) return '';
  const { side, seconds, uncertaintySeconds } = leadingSide;
  return `The ${side} side leads by ${seconds.toFixed(2)} s (±${uncertaintySeconds.toFixed(2)}).`;
}

function switchLines({ summary }: BoutReport): string[] {
  return (summary.stageSwitches ?? []).map(({ fromStage, afterRep, plannedAfterRep }) => {
    const planned =
      plannedAfterRep === null
        ? ''
        : ` (planned after ${plannedAfterRep.min === plannedAfterRep.max ? '' : `${plannedAfterRep.min} to `}${plannedAfterRep.max})`;
    return `Tempo changed from stage ${fromStage} to ${fromStage + 1} after rep ${afterRep}${planned}.`;
  });
}
