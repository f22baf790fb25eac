import type { SetReport } from '../../../analysis/report/setReport.js';
import type { PoseTrack } from '../../../core/pose/track.js';
import {
  type AssEvent,
  assScript,
  type Colour,
  placedShape,
  placedText,
  type TextLook,
} from '../annotated/assScript.js';
import { skeletonPaths } from '../annotated/skeletonPaths.js';
import { shownFigure } from '../figure/shownFigure.js';
import { clockText, degreesText } from '../words/numbers.js';
import type { PhaseWords } from '../words/phaseWords.js';
import type { Position, PositionName } from './positionsOfRep.js';
import { HEADING_HEIGHT, type Sheet, TITLE_HEIGHT } from './sheetLayout.js';

export const SHEET_COLOUR: Colour = [246, 243, 236];
export const TILE_COLOUR: Colour = [32, 40, 44];
/** Mean width of a letter in line heights, for the widest of the usual fonts (DejaVu Sans). */
const LETTER_WIDTH = 0.47;
const INK: Colour = [31, 42, 48];
const QUIET: Colour = [86, 100, 107];

/** Index of the analyzed frame nearest to a film time. */
function nearestFrame(track: PoseTrack, seconds: number): number {
  let best = 0;
  track.seconds.forEach((at, frame) => {
    if (Math.abs(at - seconds) < Math.abs(track.seconds[best]! - seconds)) best = frame;
  });
  return best;
}

function still(layer: number, style: AssEvent['style'], content: string): AssEvent {
  return { layer, fromSeconds: 0, toSeconds: 5, style, content };
}

function text(content: string, look: TextLook): AssEvent {
  return still(9, 'Text', placedText(content, look));
}

/** Words and figures of the sheet, as a subtitle script for the one picture. */
export function sheetScript(
  report: SetReport,
  sheet: Sheet,
  track: PoseTrack,
  words: PhaseWords,
  factor: number,
): string {
  const events = [
    ...figuresOf(sheet, shownFigure(track, report), factor),
    ...labelsOf(sheet, words, factor),
    ...headingOf(report),
  ];
  return assScript(sheet, events);
}

function figuresOf(sheet: Sheet, track: PoseTrack, factor: number): readonly AssEvent[] {
  const scale = sheet.tileHeight / sheet.region.height;
  return sheet.reps
    .flatMap(({ tiles }) => tiles)
    .flatMap(({ position, left, top }) => {
      const clip = `{\\clip(${left},${top},${left + sheet.tileWidth},${top + sheet.tileHeight})}`;
      return skeletonPaths(track, nearestFrame(track, position.seconds * factor), {
        scale,
        left: left - sheet.region.x * scale,
        top: top - sheet.region.y * scale,
        thickness: 3.5,
      }).map(({ colour, path }, layer) =>
        still(layer, 'Shape', clip + placedShape(path, colour, { border: 0.8 })),
      );
    });
}

/** Titles of the reps, and captions all of one size, small enough that no two touch. */
function labelsOf(sheet: Sheet, words: PhaseWords, factor: number): readonly AssEvent[] {
  const names: Readonly<Record<PositionName, string>> = {
    contracted: 'contracted',
    middle: `mid-${words.eccentric}`,
    stretched: 'stretched',
  };
  const captionOf = ({ name, degrees, seconds }: Position) =>
    `${names[name]}${degrees === null ? '' : ` ${degreesText(degrees)}`} · ${clockText(seconds * factor)}`;
  const tiles = sheet.reps.flatMap((rep) => rep.tiles);
  const longest = Math.max(...tiles.map(({ position }) => captionOf(position).length));
  const size = Math.floor(Math.min(15, (sheet.tileWidth - 4) / (longest * LETTER_WIDTH)));
  const titles = sheet.reps.map(({ title, left, top }) =>
    text(title, { x: left, y: top + TITLE_HEIGHT - 6, anchor: 1, size: 19, colour: INK, bold: true }),
  );
  const captions = tiles.map(({ position, left, top }) =>
    text(captionOf(position), {
      x: left + sheet.tileWidth / 2,
      y: top + sheet.tileHeight + 4,
      anchor: 8,
      size,
      colour: QUIET,
    }),
  );
  return [...titles, ...captions];
}

function headingOf(report: SetReport): readonly AssEvent[] {
  const told = report.bouts.some((bout) => bout.reps.some(({ range }) => range !== null));
  const angle = report.exercise.drivingAngle.replaceAll('-', ' ');
  const key = told
    ? `${angle} in degrees, 0° is the anatomical position; time in the film`
    : 'Time in the film; from this view no degrees are given';
  return [
    text(report.exercise.name, { x: 18, y: 16, anchor: 7, size: 27, colour: INK, bold: true }),
    text(key, { x: 18, y: HEADING_HEIGHT - 26, anchor: 7, size: 15, colour: QUIET }),
  ];
}
