import { describe, expect, it } from 'vitest';
import { isPlausible, NORMAL_RANGES } from '../../../core/motion/normalRanges.js';

// Norkin and White, Measurement of Joint Motion, table A.1: means of Boone and Azen, Greene and Wolf, Walker, Macedo
// and Magee, and the AAOS's figures, degrees.
const UPPER_LIMB = {
  'shoulder-flexion': [167, 156, 165, 188, 180, -62, -44, -70, -60],
  'shoulder-abduction': [184, 168, 165, 188, 180],
  'elbow-flexion': [143, 145, 143, 149, 150, -1, 0, -2],
} as const;
// Soucie et al. 2011, ages 2 to 8, female and male: knee flexion and extension, hip flexion and extension.
const LOWER_LIMB = {
  'knee-flexion': [152.6, 147.8, -5.4, -1.6],
  'hip-flexion': [140.8, 131.1, -26.2, -28.3],
} as const;

describe('normal joint ranges', () => {
  it.each(Object.entries({ ...UPPER_LIMB, ...LOWER_LIMB }))(
    '%s holds every published mean',
    (joint, means) => {
      const [least, most] = NORMAL_RANGES[joint as keyof typeof NORMAL_RANGES];
      for (const mean of means) {
        expect(mean).toBeGreaterThanOrEqual(least - 0.5);
        expect(mean).toBeLessThanOrEqual(most + 0.5);
        expect(isPlausible(joint as keyof typeof NORMAL_RANGES, mean)).toBe(true);
      }
    },
  );

  it('take no elbow or knee that bends far backwards, and none folded flat', () => {
    for (const joint of ['elbow-flexion', 'knee-flexion'] as const) {
      expect(isPlausible(joint, -40)).toBe(false);
      expect(isPlausible(joint, 179)).toBe(false);
    }
  });
});
