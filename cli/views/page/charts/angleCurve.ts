import * as Plot from '@observablehq/plot';
import type { AngleCurve } from '../../../../analysis/analyzeSet.js';
import type { BoutReport, PhaseReport } from '../../../../analysis/report/setReport.js';
import { decimal } from '../../words/numbers.js';
import type { Markup } from '../layout/markup.js';
import { drawPlot } from './drawPlot.js';
import { hatchedBoxes } from './hatching.js';

const PIXELS_A_SECOND = 17;
const LEAST_WIDTH = 640;
const HEIGHT = 300;
const MARGIN_LEFT = 46;
const MARGIN_RIGHT = 16;
const MARGIN_ABOVE_AND_BELOW = 34;
/** A phase narrower than this has no room for its seconds. */
const LEAST_LABEL_PIXELS = 26;
/** Points of the drawn curve a second: more cannot be told apart at this width. */
const POINTS_A_SECOND = 12;

interface Point {
  readonly seconds: number;
  readonly degrees: number;
  readonly low: number;
  readonly high: number;
}

/** Every point, or every second, third … one of a dense curve; gaps stay gaps. */
function thinned(curve: AngleCurve): readonly Point[] {
  const points: Point[] = [];
  let last = Number.NEGATIVE_INFINITY;
  curve.seconds.forEach((seconds, index) => {
    if (seconds - last < 0.95 / POINTS_A_SECOND) return;
    const degrees = curve.degrees[index]!;
    const uncertainty = curve.uncertaintyDegrees[index]!;
    if (seconds - last > 0.5 && points.length > 0) {
      points.push({ seconds: (seconds + last) / 2, degrees: Number.NaN, low: Number.NaN, high: Number.NaN });
    }
    points.push({ seconds, degrees, low: degrees - uncertainty, high: degrees + uncertainty });
    last = seconds;
  });
  return points;
}

export interface AngleCurveLabels {
  readonly boutName: string;
  readonly angle: string;
}

/** What lies where in the chart: seconds along, degrees up, and the ribbon of the phases below the degrees. */
interface Layout {
  readonly width: number;
  readonly from: number;
  readonly to: number;
  readonly lowest: number;
  readonly highest: number;
  readonly ribbonTop: number;
  readonly ribbonBottom: number;
  readonly pixelsPerSecond: number;
}

function layoutOf(bout: BoutReport, points: readonly Point[]): Layout {
  const measured = points.filter((point) => !Number.isNaN(point.degrees));
  const from = Math.min(bout.startSeconds, ...measured.slice(0, 1).map((point) => point.seconds));
  const to = Math.max(bout.endSeconds, ...measured.slice(-1).map((point) => point.seconds));
  const width = Math.max(LEAST_WIDTH, Math.ceil((to - from) * PIXELS_A_SECOND) + MARGIN_LEFT + MARGIN_RIGHT);
  const lowest = Math.min(0, ...measured.map((point) => point.low));
  const highest = Math.max(90, ...measured.map((point) => point.high));
  const span = highest - lowest;
  return {
    ...{ width, from, to, lowest, highest },
    ribbonTop: lowest - span * 0.04,
    ribbonBottom: lowest - span * 0.15,
    pixelsPerSecond: (width - MARGIN_LEFT - MARGIN_RIGHT) / (to - from),
  };
}

/**
 * The driving angle of one bout over time. Phases stand as tinted bands behind the curve and as patterned
 * bars with their seconds below it; rep numbers stand above. The attributes `data-from`, `data-to`,
 * `data-left` and `data-right` tell the page's script which seconds lie at which part of the width.
 */
export function angleCurveChart(bout: BoutReport, curve: AngleCurve, labels: AngleCurveLabels): Markup {
  const points = thinned(curve);
  const layout = layoutOf(bout, points);
  const { width, from, to, lowest, highest, ribbonBottom } = layout;
  const phases = bout.reps.flatMap((rep) => rep.phases).filter((phase) => phase.seconds > 0);
  const ticks = [0, 30, 60, 90, 120, 150, 180].filter((tick) => tick >= lowest && tick <= highest);
  return drawPlot(
    {
      width,
      height: HEIGHT,
      marginLeft: MARGIN_LEFT,
      marginRight: MARGIN_RIGHT,
      marginTop: MARGIN_ABOVE_AND_BELOW,
      marginBottom: MARGIN_ABOVE_AND_BELOW,
      ariaLabel: `${labels.boutName}: ${labels.angle} over time`,
      ariaDescription: `${bout.reps.length} reps from second ${decimal(bout.startSeconds, 1)} to second ${decimal(bout.endSeconds, 1)}.`,
      x: { domain: [from, to], label: 'seconds of the film', labelAnchor: 'right' },
      // Its name stands above the chart, which may be scrolled.
      y: { domain: [ribbonBottom, highest], ticks, label: null },
      marks: [
        phaseBands(phases, layout),
        Plot.ruleY(ticks, { stroke: 'var(--line)', strokeWidth: 1 }),
        ...repMarks(bout, layout),
        ...curveMarks(points),
        ...ribbonMarks(phases, layout),
      ],
    },
    placesForTheScript(layout),
  );
}

const middle = (part: { readonly startSeconds: number; readonly endSeconds: number }) =>
  (part.startSeconds + part.endSeconds) / 2;

function phaseBands(phases: readonly PhaseReport[], { lowest, highest }: Layout): Plot.Markish {
  return Plot.rect(phases, {
    x1: 'startSeconds',
    x2: 'endSeconds',
    y1: lowest,
    y2: highest,
    fill: (phase: PhaseReport) => `var(--${phase.kind})`,
    fillOpacity: 0.1,
  });
}

/** A line where each rep begins, and its number above. */
function repMarks({ reps }: BoutReport, { ribbonBottom, highest }: Layout): Plot.Markish[] {
  return [
    Plot.ruleX(reps, {
      x: 'startSeconds',
      y1: ribbonBottom,
      y2: highest,
      stroke: 'var(--quiet)',
      strokeDasharray: '2 3',
    }),
    Plot.text(reps, {
      x: middle,
      y: highest,
      text: (rep: { number: number }) => String(rep.number),
      dy: -9,
      fontWeight: 600,
      fill: 'var(--ink)',
    }),
  ];
}

function curveMarks(points: readonly Point[]): Plot.Markish[] {
  return [
    Plot.areaY(points, { x: 'seconds', y1: 'low', y2: 'high', fill: 'var(--curve)', fillOpacity: 0.13 }),
    Plot.lineY(points, { x: 'seconds', y: 'degrees', stroke: 'var(--curve)', strokeWidth: 1.8 }),
  ];
}

/** Patterned bars of the phases, with their seconds where these fit. */
function ribbonMarks(phases: readonly PhaseReport[], layout: Layout): Plot.Markish[] {
  const { ribbonTop, ribbonBottom, pixelsPerSecond } = layout;
  const fits = (phase: PhaseReport) => phase.seconds * pixelsPerSecond > LEAST_LABEL_PIXELS;
  return [
    hatchedBoxes(
      phases.map((phase) => ({
        kind: phase.kind,
        x1: phase.startSeconds,
        x2: phase.endSeconds,
        y1: ribbonBottom,
        y2: ribbonTop,
      })),
    ),
    Plot.text(phases.filter(fits), {
      x: middle,
      y: (ribbonTop + ribbonBottom) / 2,
      text: (phase: PhaseReport) => decimal(phase.seconds, 1),
      fill: 'var(--ink)',
      stroke: 'var(--card)',
      strokeWidth: 4,
      fontSize: 11,
    }),
  ];
}

/** Which seconds and degrees lie at which parts of the picture, for the script that moves the cursor. */
function placesForTheScript(layout: Layout): Readonly<Record<string, string>> {
  const { width, from, to, highest, ribbonBottom, pixelsPerSecond } = layout;
  const pixel = (seconds: number) => MARGIN_LEFT + (seconds - from) * pixelsPerSecond;
  return {
    class: 'curve',
    'data-from': from.toFixed(3),
    'data-to': to.toFixed(3),
    'data-left': (pixel(from) / width).toFixed(5),
    'data-right': (pixel(to) / width).toFixed(5),
    'data-low': ribbonBottom.toFixed(2),
    'data-high': highest.toFixed(2),
    'data-top': (MARGIN_ABOVE_AND_BELOW / HEIGHT).toFixed(5),
    'data-bottom': ((HEIGHT - MARGIN_ABOVE_AND_BELOW) / HEIGHT).toFixed(5),
  };
}
