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
import { withOwnSides } from '../figure/ownSides.js';
import { clockText, degreesText } from '../page/layout/numbers.js';
import type { PhaseWords } from '../words/phaseWords.js';
import type { PositionName } from './positionsOfRep.js';
import { HEADING_HEIGHT, type Sheet, TITLE_HEIGHT } from './sheetLayout.js';

export const SHEET_COLOUR: Colour = [246, 243, 236];
export const TILE_COLOUR: Colour = [32, 40, 44];
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
  const captions: Readonly<Record<PositionName, string>> = {
    contracted: 'contracted',
    middle: `mid-${words.eccentric}`,
    stretched: 'stretched',
  };
  const figure = withOwnSides(track, report.film.mirrored);
  const scale = sheet.tileHeight / sheet.region.height;
  const figures = sheet.reps.flatMap(({ tiles }) =>
    tiles.flatMap((tile) =>
      skeletonPaths(figure, nearestFrame(track, tile.position.seconds * factor), {
        scale,
        left: tile.left - sheet.region.x * scale,
        top: tile.top - sheet.region.y * scale,
        thickness: 3.5,
      }).map(({ colour, path }, layer) => {
        const clip = `{\\clip(${tile.left},${tile.top},${tile.left + sheet.tileWidth},${tile.top + sheet.tileHeight})}`;
        return still(layer, 'Shape', clip + placedShape(path, colour, { border: 0.8 }));
      }),
    ),
  );
  const labels = sheet.reps.flatMap((rep) => [
    text(rep.title, {
      x: rep.left,
      y: rep.top + TITLE_HEIGHT - 6,
      anchor: 1,
      size: 19,
      colour: INK,
      bold: true,
    }),
    ...rep.tiles.map(({ position, left, top }) => {
      const angle = position.degrees === null ? '' : ` ${degreesText(position.degrees)}`;
      return text(`${captions[position.name]}${angle} · ${clockText(position.seconds * factor)}`, {
        x: left + sheet.tileWidth / 2,
        y: top + sheet.tileHeight + 4,
        anchor: 8,
        size: 15,
        colour: QUIET,
      });
    }),
  ]);
  const angle = report.exercise.drivingAngle.replaceAll('-', ' ');
  const heading = [
    text(report.exercise.name, { x: 18, y: 16, anchor: 7, size: 27, colour: INK, bold: true }),
    text(`${angle} in degrees, 0° is the anatomical position; time in the film`, {
      x: 18,
      y: HEADING_HEIGHT - 26,
      anchor: 7,
      size: 15,
      colour: QUIET,
    }),
  ];
  return assScript(sheet, [...figures, ...labels, ...heading]);
}
