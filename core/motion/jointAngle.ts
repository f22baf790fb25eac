/**
 * Joint angles by the neutral-zero method of goniometry: 0° is the anatomical position and
 * flexion (abduction, elevation) grows positive.
 *
 * - `elbow-flexion`, `knee-flexion`: 180° minus the interior angle.
 * - `hip-flexion`: trunk (hip to shoulder) against thigh, 0° when in line.
 * - `shoulder-flexion`: upper arm against the trunk seen from the side, signed: forward of the trunk is
 *   positive, behind it negative.
 * - `shoulder-abduction`: upper arm against the trunk seen from front or back; `shoulder-elevation` is the
 *   same angle counted up to 180° overhead from any view.
 * - `shoulder-horizontal-abduction`: upper arm against the line of the shoulders, from hanging (0°) to in
 *   line with the shoulders (90°).
 */
export const JOINT_ANGLES = [
  'elbow-flexion',
  'knee-flexion',
  'hip-flexion',
  'shoulder-flexion',
  'shoulder-abduction',
  'shoulder-elevation',
  'shoulder-horizontal-abduction',
] as const;

export type JointAngle = (typeof JOINT_ANGLES)[number];
