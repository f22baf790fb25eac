import { describe, expect, test } from 'vitest';
import { trackRegions } from '../../../core/pose/regionTrack.js';
import { linkSightings } from '../../../core/pose/sightings.js';
import { looksAt, person, squatting } from './inventedPeople.js';

const PICTURE = { width: 1080, height: 1920 };

describe('region over time', () => {
  test('holds the whole body in every phase of a squat, and hardly moves', () => {
    const bodyAt = (seconds: number) =>
      person({ x: 500, feetY: 1500, height: 1000, depth: squatting(seconds, 3) });
    const [trail] = linkSightings(looksAt(30, (seconds) => [bodyAt(seconds)]));
    const regionAt = trackRegions(trail!, PICTURE);
    const sides: number[] = [];
    for (let seconds = 0; seconds <= 30; seconds += 0.1) {
      const region = regionAt(seconds);
      const points = bodyAt(seconds);
      sides.push(region.side);
      for (let keypoint = 0; keypoint < 17; keypoint++) {
        const away = Math.max(
          Math.abs(points[keypoint * 3]! - region.centerX),
          Math.abs(points[keypoint * 3 + 1]! - region.centerY),
        );
        expect(away).toBeLessThan((region.side / 2) * 0.95);
      }
    }
    expect(Math.max(...sides) / Math.min(...sides)).toBeLessThan(1.15);
  });

  test('follows a lifter who walks to another place', () => {
    const bodyAt = (seconds: number) => person({ x: 200 + 30 * seconds, feetY: 1500, height: 900 });
    const [trail] = linkSightings(looksAt(20, (seconds) => [bodyAt(seconds)]));
    const regionAt = trackRegions(trail!, PICTURE);
    expect(Math.abs(regionAt(10.2).centerX - 506)).toBeLessThan(10);
  });

  test('nobody seen: the whole picture', () => {
    expect(trackRegions([], PICTURE)(3)).toEqual({ centerX: 540, centerY: 960, side: 1920 });
  });
});
