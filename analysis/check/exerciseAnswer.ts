import type { Body } from '../../core/motion/body.js';
import { jointGeometry } from '../../core/motion/jointGeometry.js';
import { FRONTAL_DEGREES, SIDE_VIEW_DEGREES, type View } from '../../core/motion/view.js';
import { KEYPOINT_COUNT, type Side } from '../../core/pose/keypoints.js';
import type { Exercise } from '../exercises/exercise.js';

/** Whether a film can answer for one exercise. `partly`: something of it, with the reason. */
export interface ExerciseAnswer {
  readonly id: string;
  readonly name: string;
  readonly answer: 'yes' | 'partly' | 'no';
  readonly reason: string | null;
}

/** A joint seen in fewer of the pictures than this cannot be timed; fewer than the second, only in part. */
const HARDLY_SEEN_SHARE = 0.4;
const OFTEN_SEEN_SHARE = 0.7;

export function exerciseAnswer(exercise: Exercise, body: Body, view: View | null): ExerciseAnswer {
  const { id, name } = exercise;
  const answer = (value: ExerciseAnswer['answer'], reason: string | null = null) => ({
    ...{ id, name, answer: value, reason },
  });
  if (view === null) return answer('no', 'nobody was seen');
  const share = Math.max(
    jointSeenShare(exercise, body, view, 'left'),
    jointSeenShare(exercise, body, view, 'right'),
  );
  if (share < HARDLY_SEEN_SHARE) return answer('no', 'the joint that times it is out of sight');
  const seenFrom = viewOf(view);
  if (!exercise.advisedViews.includes(seenFrom)) {
    return answer('partly', `filmed ${WORDS[seenFrom]}, best filmed ${wordsOf(exercise.advisedViews)}`);
  }
  if (share < OFTEN_SEEN_SHARE) return answer('partly', 'the joint that times it is hidden at times');
  if (exercise.visibility !== 'yes') return answer('partly', 'one camera sees it only in part');
  return answer('yes');
}

function viewOf(view: View): Exercise['advisedViews'][number] {
  if (view.degreesOffSide <= SIDE_VIEW_DEGREES) return 'side';
  if (view.degreesOffSide < FRONTAL_DEGREES) return 'oblique';
  return view.facing === 'back' ? 'rear' : 'front';
}

const WORDS: Record<Exercise['advisedViews'][number], string> = {
  side: 'from the side',
  front: 'from the front',
  rear: 'from behind',
  oblique: 'at an angle',
};

function wordsOf(views: Exercise['advisedViews']): string {
  return views.map((view) => WORDS[view]).join(' or ');
}

/** Share of the pictures in which every point of the driving angle was seen on one side. */
function jointSeenShare(exercise: Exercise, body: Body, view: View, side: Side): number {
  const { first, second } = jointGeometry(
    exercise.drivingAngle,
    side,
    view.degreesOffSide > SIDE_VIEW_DEGREES,
  );
  const points = [...first.from, ...first.to, ...second.from, ...second.to];
  let frames = 0;
  for (let frame = 0; frame < body.frames; frame += 1) {
    if (points.every((point) => body.seen[frame * KEYPOINT_COUNT + point] === 1)) frames += 1;
  }
  return body.frames === 0 ? 0 : frames / body.frames;
}
