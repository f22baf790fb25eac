import type { PhaseReport, RepReport, SetReport } from '../../../analysis/report/setReport.js';
import { boutNames } from '../page/set/wordsOfSet.js';
import { type PhaseWords, phaseWord } from '../words/phaseWords.js';
import { type AssEvent, type Colour, placedShape, placedText, rectanglePath } from './assScript.js';

const INK: Colour = [243, 239, 230];
const QUIET: Colour = [178, 188, 192];
const PANEL: Colour = [24, 30, 34];
const TRACK: Colour = [84, 96, 102];
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

export interface Panel {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
  readonly fontSize: number;
}

/** Where the panel stands: across the foot of the picture. */
export function panelOf({ width, height }: { width: number; height: number }): Panel {
  const fontSize = Math.max(13, Math.round(Math.min(width, height) / 17));
  const margin = Math.round(fontSize * 0.6);
  return {
    left: margin,
    right: width - margin,
    top: height - margin - Math.round(fontSize * 4.1),
    bottom: height - margin,
    fontSize,
  };
}

function plannedText(planned: PhaseReport['plannedSeconds']): string {
  if (planned === null || planned === 0) return '';
  return planned === 'X' ? 'planned: explosive' : `of ${planned} s`;
}

interface Moment {
  readonly fromSeconds: number;
  readonly toSeconds: number;
}

/**
 * The panel of a film: which rep, the phase with its running seconds against the plan, a bar that fills, and
 * the verdict as the phase ends. Report times are real; `factor` turns them into film time.
 */
export function panelEvents(
  report: SetReport,
  panel: Panel,
  words: PhaseWords,
  factor: number,
): readonly AssEvent[] {
  const names = boutNames(report);
  const { left, right, top, bottom, fontSize } = panel;
  const inset = fontSize * 0.6;
  const event = (moment: Moment, layer: number, style: AssEvent['style'], content: string): AssEvent => ({
    layer,
    fromSeconds: moment.fromSeconds * factor,
    toSeconds: moment.toSeconds * factor,
    style,
    content,
  });
  const text = (
    moment: Moment,
    line: 0 | 1,
    side: 'left' | 'right',
    content: string,
    colour: Colour,
    bold = false,
  ) =>
    event(
      moment,
      12,
      'Text',
      placedText(content, {
        x: side === 'left' ? left + inset : right - inset,
        y: top + inset * 0.7 + line * fontSize * 1.35,
        anchor: side === 'left' ? 7 : 9,
        size: fontSize * (line === 0 ? 1 : 1.15),
        colour,
        bold,
      }),
    );
  const barTop = bottom - fontSize * 0.85;
  const barBottom = bottom - fontSize * 0.45;
  const bar = (moment: Moment, share: number, colour: Colour, layer: number) =>
    event(
      moment,
      layer,
      'Shape',
      placedShape(
        rectanglePath(left + inset, barTop, left + inset + (right - left - 2 * inset) * share, barBottom),
        colour,
      ),
    );

  const phaseEvents = (phase: PhaseReport): AssEvent[] => {
    const word = phaseWord(phase.kind, words);
    const planned = typeof phase.plannedSeconds === 'number' ? phase.plannedSeconds : 0;
    const full = Math.max(planned, 0.001);
    const steps = Math.max(1, Math.ceil(phase.seconds / STEP - 1e-6));
    return Array.from({ length: steps }, (_, step) => {
      const fromSeconds = phase.startSeconds + step * STEP;
      const moment = { fromSeconds, toSeconds: Math.min(fromSeconds + STEP, phase.endSeconds) };
      const reached = Math.min(phase.seconds, step * STEP);
      return [
        text(moment, 1, 'left', `${word} ${reached.toFixed(1)}`, PHASE_COLOURS[phase.kind], true),
        text(moment, 1, 'right', plannedText(phase.plannedSeconds), INK),
        ...(planned > 0 ? [bar(moment, Math.min(1, reached / full), PHASE_COLOURS[phase.kind], 12)] : []),
      ];
    }).flat();
  };

  /** What the phase that ended last came to, over the panel, until the next verdict or a little while. */
  const verdictEvents = (reps: readonly RepReport[], endSeconds: number): AssEvent[] => {
    const told = reps
      .flatMap((rep) => rep.phases)
      .filter((phase) => phase.verdict !== null && (phase.seconds > 0.05 || phase.verdict !== 'met'));
    return told.map((phase, index) => {
      const following = told[index + 1]?.endSeconds ?? endSeconds;
      const moment = {
        fromSeconds: phase.endSeconds,
        toSeconds: Math.min(phase.endSeconds + VERDICT_STAYS, following),
      };
      const content = `${phaseWord(phase.kind, words)} ${phase.seconds.toFixed(1)} s: ${VERDICT_WORDS[phase.verdict!]}`;
      return event(
        moment,
        13,
        'Text',
        placedText(content, {
          x: right - inset,
          y: top - fontSize * 0.35,
          anchor: 3,
          size: fontSize,
          colour: phase.verdict === 'met' ? QUIET : INK,
          bold: phase.verdict !== 'met',
        }),
      );
    });
  };

  return report.bouts.flatMap((bout, index) => {
    // The last verdict stays a while, but never into the panel of the bout that follows.
    const following = report.bouts
      .map(({ startSeconds }) => startSeconds)
      .filter((startSeconds) => startSeconds >= bout.endSeconds);
    const whole = {
      fromSeconds: bout.startSeconds,
      toSeconds: Math.min(bout.endSeconds + VERDICT_STAYS, ...following),
    };
    const backdrop = event(
      whole,
      10,
      'Shape',
      placedShape(rectanglePath(left, top - fontSize * 1.5, right, bottom), PANEL, { opacity: 0.78 }),
    );
    const trough = bar(whole, 1, TRACK, 11);
    return [
      backdrop,
      trough,
      ...verdictEvents(bout.reps, whole.toSeconds),
      ...bout.reps.flatMap((rep, number) => {
        const next = bout.reps[number + 1]?.startSeconds ?? whole.toSeconds;
        const name = names.length === 1 ? '' : `${names[index]}, `;
        const label = `${name}rep ${rep.number}`;
        const moment = { fromSeconds: rep.startSeconds, toSeconds: next };
        return [
          text(moment, 0, 'left', label.charAt(0).toUpperCase() + label.slice(1), INK, true),
          ...rep.phases.flatMap(phaseEvents),
        ];
      }),
    ];
  });
}
