import type { SetAnalysis } from '../../../analysis/analyzeSet.js';
import type { Rectangle } from '../../../core/media/pictureFilters.js';
import { KEYPOINT_COUNT } from '../../../core/pose/keypoints.js';
import type { PoseTrack } from '../../../core/pose/track.js';
import { boutNames } from '../words/boutNames.js';
import { type Position, positionsOfRep } from './positionsOfRep.js';

/** One picture on the sheet. */
export interface Tile {
  readonly position: Position;
  readonly left: number;
  readonly top: number;
}

export interface SheetRep {
  /** "Rep 3", "Left, rep 3" */
  readonly title: string;
  readonly left: number;
  readonly top: number;
  readonly tiles: readonly Tile[];
}

export interface Sheet {
  readonly width: number;
  readonly height: number;
  readonly tileWidth: number;
  readonly tileHeight: number;
  /** The part of the film that every tile shows. */
  readonly region: Rectangle;
  readonly reps: readonly SheetRep[];
}

export const TITLE_HEIGHT = 30;
const CAPTION_HEIGHT = 24;
export const HEADING_HEIGHT = 74;
const GAP = 6;
const MARGIN = 18;
const TILE_HEIGHT = 220;
const TILES_A_REP = 3;

/**
 * The part of the picture in which the lifter works, with a little room: from the 0.5th to the 99.5th percentile
 * of all body points the model was fairly sure of, from the first bout to the last.
 */
function workingRegion(track: PoseTrack, fromSeconds: number, toSeconds: number): Rectangle {
  const xs: number[] = [];
  const ys: number[] = [];
  track.seconds.forEach((seconds, frame) => {
    if (seconds < fromSeconds || seconds > toSeconds) return;
    for (let keypoint = 0; keypoint < KEYPOINT_COUNT; keypoint++) {
      const index = frame * KEYPOINT_COUNT + keypoint;
      if (track.score[index]! < 0.3) continue;
      xs.push(track.x[index]!);
      ys.push(track.y[index]!);
    }
  });
  if (xs.length < KEYPOINT_COUNT) return { x: 0, y: 0, width: track.width, height: track.height };
  const ends = (values: number[]) => {
    values.sort((first, second) => first - second);
    const at = (share: number) => values[Math.round(share * (values.length - 1))]!;
    return [at(0.005), at(0.995)] as const;
  };
  const [left, right] = ends(xs);
  const [top, bottom] = ends(ys);
  const room = 0.14 * Math.max(right - left, bottom - top);
  // Neither a sliver nor wider than 4 to 3: hands and weights reach beyond the wrists.
  const height = Math.min(track.height, bottom - top + 2 * room);
  const width = Math.min(
    track.width,
    Math.max(height * 0.6, Math.min(right - left + 2 * room, height * 1.4)),
  );
  const inside = (middle: number, size: number, whole: number) =>
    Math.min(Math.max(0, middle - size / 2), whole - size);
  return {
    x: inside((left + right) / 2, width, track.width),
    y: inside((top + bottom) / 2, height, track.height),
    width,
    height,
  };
}

/** Reps side by side: as many as keep the sheet near a page in shape. */
function repsPerRow(count: number): number {
  if (count <= 3) return 1;
  return count <= 10 ? 2 : 3;
}

/** Where every picture of the sheet goes. Times of the report are real; `factor` makes them film time. */
export function sheetLayout(analysis: SetAnalysis, track: PoseTrack, factor: number): Sheet {
  const { report, curves } = analysis;
  const names = boutNames(report);
  const region = workingRegion(
    track,
    (report.bouts[0]?.startSeconds ?? 0) * factor,
    (report.bouts.at(-1)?.endSeconds ?? Number.POSITIVE_INFINITY) * factor,
  );
  const tileHeight = TILE_HEIGHT;
  const tileWidth = 2 * Math.round((tileHeight * region.width) / region.height / 2);
  const repWidth = TILES_A_REP * tileWidth + (TILES_A_REP - 1) * GAP;
  const repHeight = TITLE_HEIGHT + tileHeight + CAPTION_HEIGHT;
  const perRow = repsPerRow(report.bouts.reduce((sum, bout) => sum + bout.reps.length, 0));
  const width = 2 * MARGIN + perRow * repWidth + (perRow - 1) * 2 * MARGIN;
  let top = HEADING_HEIGHT;
  const reps = report.bouts.flatMap((bout, boutIndex) => {
    const placed = bout.reps.map((rep, index): SheetRep => {
      const left = MARGIN + (index % perRow) * (repWidth + 2 * MARGIN);
      const repTop = top + Math.floor(index / perRow) * (repHeight + GAP);
      return {
        title: names.length === 1 ? `Rep ${rep.number}` : `${names[boutIndex]}, rep ${rep.number}`,
        left,
        top: repTop,
        tiles: positionsOfRep(rep, curves[boutIndex] ?? null).map((position, tile) => ({
          position,
          left: left + tile * (tileWidth + GAP),
          top: repTop + TITLE_HEIGHT,
        })),
      };
    });
    top += Math.ceil(bout.reps.length / perRow) * (repHeight + GAP) + GAP;
    return placed;
  });
  const even = (pixels: number) => pixels + (pixels % 2);
  return { width: even(width), height: even(top + MARGIN), tileWidth, tileHeight, region, reps };
}
