import fc from 'fast-check';
import { expect, test } from 'vitest';
import { planDecode } from '../../../core/pose/decodePlan.js';

test('a lifter who fills half of a 1080 × 1920 film is decoded a little larger than the model needs, in steps', () => {
  const plan = planDecode({ width: 1080, height: 1920 }, [{ centerX: 540, centerY: 960, side: 1024 }], 256);
  expect(plan.window).toEqual({ left: 0, top: 364, width: 1080, height: 1192 });
  // Needed is 1.15 × 256 / 1024 = 0.2875; the next quarter of a doubling above it is 2 ** (−7 / 4) = 0.2973.
  expect(plan.width).toBe(321);
  expect(plan.height).toBe(354);
});

test('a region that turns out a percent larger is decoded at the same scale', () => {
  for (const side of [1024, 1034]) {
    const plan = planDecode({ width: 1080, height: 1920 }, [{ centerX: 540, centerY: 960, side }], 256);
    expect(Math.abs(plan.height - plan.window.height * 2 ** (-7 / 4))).toBeLessThanOrEqual(1);
  }
});

test('without regions the whole picture is decoded', () => {
  expect(planDecode({ width: 640, height: 480 }, [], 256).window).toEqual({
    left: 0,
    top: 0,
    width: 640,
    height: 480,
  });
});

test('no region is enlarged unless the film itself is too small, and none loses what the film shows of it', () => {
  const region = fc.record({
    centerX: fc.double({ min: 0, max: 1280, noNaN: true }),
    centerY: fc.double({ min: 0, max: 720, noNaN: true }),
    side: fc.double({ min: 40, max: 2000, noNaN: true }),
  });
  fc.assert(
    fc.property(fc.array(region, { minLength: 1, maxLength: 5 }), (regions) => {
      const { window, width, height } = planDecode({ width: 1280, height: 720 }, regions, 256);
      expect(window.left).toBeGreaterThanOrEqual(0);
      expect(window.left + window.width).toBeLessThanOrEqual(1280);
      expect(window.top + window.height).toBeLessThanOrEqual(720);
      expect(width).toBeLessThanOrEqual(window.width);
      for (const { centerX, centerY, side } of regions) {
        expect(window.left).toBeLessThanOrEqual(Math.max(0, centerX - side / 2));
        expect(window.top + window.height).toBeGreaterThanOrEqual(Math.min(720, centerY + side / 2));
        const scale = Math.max(width / window.width, height / window.height);
        expect(scale === 1 || side * scale >= 256).toBe(true);
      }
    }),
  );
});
