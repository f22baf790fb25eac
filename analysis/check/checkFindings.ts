import { mean } from 'simple-statistics';
import type { FilmFacts } from '../../core/media/film.js';
import type { Body } from '../../core/motion/body.js';
import type { View } from '../../core/motion/view.js';
import { KEYPOINT_COUNT, KEYPOINT_INDEX } from '../../core/pose/keypoints.js';
import type { Finding } from '../report/setReport.js';

export interface CheckFacts {
  readonly film: FilmFacts;
  readonly body: Body;
  readonly view: View | null;
  readonly people: number;
  /** Pictures looked at. */
  readonly looks: number;
  readonly brightness: readonly number[];
}

const LEAST_SHARE_WITH_LIFTER = 0.3;
const FEWEST_FRAMES_A_SECOND = 20;
/** Mean brightness (0 to 255) under which a picture is dark; a dim room lies near 70. Common practice, no source. */
const DARK = 45;
/** The pose model reads a cut-out of 256 pixels: a smaller lifter has to be enlarged. */
const SMALL_LIFTER_PIXELS = 150;
const SHORTEST_SECONDS = 3;
/** A film longer than this holds more than one set, or much that is none. */
const LONG_SECONDS = 240;
/** Points this near the border (share of the picture) are about to leave it. */
const BORDER = 0.015;

/** What to change about a film, the gravest first. A film that shows nobody is told nothing else but that it is dark. */
export function checkFindings(facts: CheckFacts): readonly Finding[] {
  const dark = isDark(facts.brightness) ? DARK_FINDING : null;
  const shown = facts.body.frames / Math.max(1, facts.looks);
  const findings =
    shown < LEAST_SHARE_WITH_LIFTER
      ? [NO_LIFTER_FINDING, dark]
      : [
          fewFrames(facts),
          dark,
          smallLifter(facts),
          outOfPicture(facts),
          shortFilm(facts),
          severalPeople(facts),
          longFilm(facts),
          slowMotion(facts),
          doubtfulSlowMotion(facts),
        ];
  return findings.filter((one) => one !== null);
}

const finding = (level: Finding['level']) => (code: string, message: string, remedy: string) => ({
  ...{ code, level, message, remedy },
});
const problem = finding('problem');
const warning = finding('warning');
const note = finding('note');

const NO_LIFTER_FINDING = problem(
  'no-lifter',
  'No person was found in most of this film.',
  'Film the whole body, upright, in good light, three to four steps away.',
);

const DARK_FINDING = warning('dark', 'The picture is dark.', 'More light, from the side of the camera.');

function fewFrames({ film }: CheckFacts): Finding | null {
  const rate = film.frameRate * film.slowMotionFactor;
  if (rate >= FEWEST_FRAMES_A_SECOND) return null;
  return warning(
    'few-frames',
    `Only ${rate.toFixed(0)} frames a second: the ± of every time will be wide.`,
    'Film at 30 frames a second or more, and use the original rather than a messenger copy.',
  );
}

function smallLifter({ body }: CheckFacts): Finding | null {
  const height = typicalHeight(body);
  if (height >= SMALL_LIFTER_PIXELS) return null;
  return warning(
    'lifter-small',
    `The lifter is only about ${height.toFixed(0)} pixels tall.`,
    'Go closer, or film at a higher resolution.',
  );
}

function outOfPicture({ body }: CheckFacts): Finding | null {
  const cut = partsAtBorder(body);
  if (cut.length === 0) return null;
  return warning(
    'out-of-picture',
    `Out of the picture or at its edge for much of the film: ${cut.join(', ')}.`,
    'Step back so that there is room around the lifter in every position.',
  );
}

function shortFilm({ film }: CheckFacts): Finding | null {
  if (film.durationSeconds / film.slowMotionFactor >= SHORTEST_SECONDS) return null;
  return warning(
    'short-film',
    'The film is too short for a set.',
    'Film from before the first rep until after the last.',
  );
}

function severalPeople({ people }: CheckFacts): Finding | null {
  if (people <= 1) return null;
  return note(
    'several-people',
    `${people} people are seen at once.`,
    'Say who lifts with --lifter x,y@seconds.',
  );
}

function longFilm({ film }: CheckFacts): Finding | null {
  if (film.durationSeconds <= LONG_SECONDS) return null;
  return note(
    'long-film',
    `The film lasts ${(film.durationSeconds / 60).toFixed(0)} minutes.`,
    'Name the set with --from and --to to save time.',
  );
}

function slowMotion({ film }: CheckFacts): Finding | null {
  if (film.slowMotionFactor === 1) return null;
  return note(
    'slow-motion',
    `Stored ${film.slowMotionFactor.toFixed(1)} times too slowly by the camera's own note; times will be real time.`,
    'If that is wrong, give the right factor with --speed-factor.',
  );
}

function doubtfulSlowMotion({ film }: CheckFacts): Finding | null {
  if (film.slowMotionDoubtful !== true) return null;
  return warning(
    'slow-motion-doubtful',
    'The film says it was captured at a higher rate than it stores on average: dim light or slight slow motion.',
    'If it plays more slowly than life, give the factor with --speed-factor.',
  );
}

function isDark(brightness: readonly number[]): boolean {
  return brightness.length > 0 && mean([...brightness]) < DARK;
}

/** Median height of the box around the lifter's seen points, pixels. */
function typicalHeight(body: Body): number {
  const heights: number[] = [];
  for (let frame = 0; frame < body.frames; frame += 1) {
    const seen = seenPoints(body, frame);
    const rows = seen.map((at) => body.y[at]!);
    heights.push(Math.max(...rows) - Math.min(...rows));
  }
  return heights.sort((a, b) => a - b)[Math.floor(heights.length / 2)] ?? 0;
}

function seenPoints(body: Body, frame: number): number[] {
  return Array.from({ length: KEYPOINT_COUNT }, (_, point) => frame * KEYPOINT_COUNT + point).filter(
    (at) => body.seen[at] === 1,
  );
}

const PARTS = [
  { name: 'head', points: ['nose', 'left-ear', 'right-ear'] },
  { name: 'hands', points: ['left-wrist', 'right-wrist'] },
  { name: 'feet', points: ['left-ankle', 'right-ankle'] },
] as const;

/** Parts of the body that in over half of the pictures are unseen on both sides or lie at the border. */
function partsAtBorder(body: Body): string[] {
  return PARTS.filter(({ points }) => {
    let away = 0;
    for (let frame = 0; frame < body.frames; frame += 1) {
      const inside = points.some((point) => {
        const at = frame * KEYPOINT_COUNT + KEYPOINT_INDEX[point];
        return (
          body.seen[at] === 1 && isInside(body.x[at]! / body.width) && isInside(body.y[at]! / body.height)
        );
      });
      if (!inside) away += 1;
    }
    return away > body.frames / 2;
  }).map(({ name }) => name);
}

function isInside(share: number): boolean {
  return share > BORDER && share < 1 - BORDER;
}
