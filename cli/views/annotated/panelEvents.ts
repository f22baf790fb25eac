import type { BoutReport, PhaseReport, SetReport } from '../../../analysis/report/setReport.js';
import { boutNames } from '../words/boutNames.js';
import { PHASES_IN_PLAN_ORDER, type PhaseWords, phaseWord } from '../words/phaseWords.js';
import type { AssEvent, Colour } from './assScript.js';
import { LAYER, type PanelPen, panelPen } from './panelPen.js';
import { panelPlaces } from './panelPlaces.js';

const INK: Colour = [243, 239, 230];
const QUIET: Colour = [178, 188, 192];
const PANEL: Colour = [24, 30, 34];
const TROUGH: Colour = [84, 96, 102];
const PHASE_COLOURS: Readonly<Record<PhaseReport['kind'], Colour>> = {
  eccentric: [107, 185, 216],
  'stretched-hold': [224, 189, 92],
  concentric: [240, 145, 111],
  'contracted-hold': [199, 154, 219],
};
const VERDICT_WORDS: Readonly<Record<NonNullable<PhaseReport['verdict']>, string>> = {
  met: 'as planned',
  short: 'short',
  long: 'long',
  unclear: 'unclear',
};
/** How often the running seconds change, seconds. */
const STEP = 0.1;
/** How long a verdict stays, seconds. */
const VERDICT_STAYS = 1.6;

/**
 * The panels of a film: which rep, the phase with its running seconds against the plan, a bar that fills, and the
 * verdict as the phase ends. Report times are real; `factor` turns them into film time.
 */
export function panelEvents(
  report: SetReport,
  size: { readonly width: number; readonly height: number },
  words: PhaseWords,
  factor: number,
): readonly AssEvent[] {
  const names = boutNames(report);
  const longest = Math.max(...PHASES_IN_PLAN_ORDER.map((kind) => verdictText(kind, 10, 'met', words).length));
  const places = panelPlaces(size, report.bouts, longest);
  return report.bouts.flatMap((bout, index) =>
    eventsOfBout(bout, panelPen(places[index]!, factor), {
      name: names.length === 1 ? null : names[index]!,
      words,
      toSeconds: endOfPanel(bout, report.bouts),
    }),
  );
}

/** The last verdict stays a while, but never into the panel of the bout that follows. */
function endOfPanel(bout: BoutReport, bouts: readonly BoutReport[]): number {
  const following = bouts
    .map(({ startSeconds }) => startSeconds)
    .filter((startSeconds) => startSeconds >= bout.endSeconds);
  return Math.min(bout.endSeconds + VERDICT_STAYS, ...following);
}

interface Labels {
  readonly name: string | null;
  readonly words: PhaseWords;
  /** When the panel goes, real seconds. */
  readonly toSeconds: number;
}

function eventsOfBout(bout: BoutReport, pen: PanelPen, labels: Labels): readonly AssEvent[] {
  const whole = { fromSeconds: bout.startSeconds, toSeconds: labels.toSeconds };
  return [
    pen.backdrop(whole, PANEL),
    pen.bar(whole, 1, TROUGH, LAYER.trough),
    ...verdictEvents(bout, pen, labels),
    ...bout.reps.flatMap((rep, index) => {
      const toSeconds = bout.reps[index + 1]?.startSeconds ?? labels.toSeconds;
      const label = labels.name === null ? `Rep ${rep.number}` : `${labels.name}, rep ${rep.number}`;
      const moment = { fromSeconds: rep.startSeconds, toSeconds };
      return [
        pen.text(moment, label, { row: 'rep', side: 'left', colour: INK, bold: true }),
        ...rep.phases.flatMap((phase) => phaseEvents(phase, pen, labels.words)),
      ];
    }),
  ];
}

function phaseEvents(phase: PhaseReport, pen: PanelPen, words: PhaseWords): readonly AssEvent[] {
  const colour = PHASE_COLOURS[phase.kind];
  const planned = typeof phase.plannedSeconds === 'number' ? phase.plannedSeconds : 0;
  const steps = Math.max(1, Math.ceil(phase.seconds / STEP - 1e-6));
  return Array.from({ length: steps }, (_, step) => {
    const fromSeconds = phase.startSeconds + step * STEP;
    const moment = { fromSeconds, toSeconds: Math.min(fromSeconds + STEP, phase.endSeconds) };
    const reached = Math.min(phase.seconds, step * STEP);
    const running = `${phaseWord(phase.kind, words)} ${reached.toFixed(1)}`;
    return [
      pen.text(moment, running, { row: 'phase', side: 'left', colour, bold: true }),
      pen.text(moment, plannedText(phase.plannedSeconds), { row: 'phase', side: 'right', colour: INK }),
      ...(planned > 0 ? [pen.bar(moment, Math.min(1, reached / planned), colour, LAYER.content)] : []),
    ];
  }).flat();
}

function plannedText(planned: PhaseReport['plannedSeconds']): string {
  if (planned === null || planned === 0) return '';
  return planned === 'X' ? 'explosive' : `of ${planned} s`;
}

/** What the phase that ended last came to, until the next verdict or a little while. */
function verdictEvents(bout: BoutReport, pen: PanelPen, { words, toSeconds }: Labels): readonly AssEvent[] {
  const told = bout.reps
    .flatMap((rep) => rep.phases)
    .filter((phase) => phase.verdict !== null && (phase.seconds > 0.05 || phase.verdict !== 'met'));
  return told.map((phase, index) => {
    const following = told[index + 1]?.endSeconds ?? toSeconds;
    const moment = {
      fromSeconds: phase.endSeconds,
      toSeconds: Math.min(phase.endSeconds + VERDICT_STAYS, following),
    };
    const met = phase.verdict === 'met';
    return pen.text(moment, verdictText(phase.kind, phase.seconds, phase.verdict!, words), {
      row: 'verdict',
      side: 'right',
      colour: met ? QUIET : INK,
      bold: !met,
    });
  });
}

function verdictText(
  kind: PhaseReport['kind'],
  seconds: number,
  verdict: NonNullable<PhaseReport['verdict']>,
  words: PhaseWords,
): string {
  return `${phaseWord(kind, words)} ${seconds.toFixed(1)} s: ${VERDICT_WORDS[verdict]}`;
}
