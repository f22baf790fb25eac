import { describe, expect, it } from 'vitest';
import { angleAt, positionsOfRep } from '../../../../cli/views/positions/positionsOfRep.js';
import { sheetLayout } from '../../../../cli/views/positions/sheetLayout.js';
import { sampleSet } from '../page/sampleSet.js';

const { analysis, track } = sampleSet();
const bout = analysis.report.bouts[0]!;
const curve = analysis.curves[0]!;

describe('positionsOfRep', () => {
  it('finds both ends and the middle of the lowering, in order of time', () => {
    const rep = bout.reps[2]!;
    const positions = positionsOfRep(rep, curve);
    expect(positions.map(({ name }) => name)).toEqual(['contracted', 'middle', 'stretched']);
    expect(positions[0]!.degrees).toBeGreaterThan(rep.range!.contractedDegrees - 2);
    expect(positions[2]!.degrees).toBeLessThan(rep.range!.stretchedDegrees + 3);
    for (const { seconds } of positions) {
      expect(seconds).toBeGreaterThanOrEqual(rep.startSeconds);
      expect(seconds).toBeLessThanOrEqual(rep.endSeconds);
    }
  });

  it('shows of a cut rep only what the film shows', () => {
    const rep = bout.reps[0]!;
    const cut = { ...rep, phases: rep.phases.filter(({ kind }) => kind === 'concentric') };
    expect(positionsOfRep(cut, curve).map(({ name }) => name)).toEqual(['stretched', 'contracted']);
  });

  it('gives no angle in a gap of the curve', () => {
    const gap = { ...curve, seconds: [0, 1], degrees: [10, 20], uncertaintyDegrees: [1, 1] };
    expect(angleAt(gap, 0.5)).toBeNull();
    expect(angleAt({ ...gap, seconds: [0, 0.4] }, 0.1)).toBeCloseTo(12.5);
    expect(angleAt(gap, 2)).toBeNull();
  });
});

describe('sheetLayout', () => {
  it('keeps every picture on the sheet and none over another', () => {
    const sheet = sheetLayout(analysis, track, 1);
    const tiles = sheet.reps.flatMap((rep) => rep.tiles);
    expect(tiles).toHaveLength(48);
    tiles.forEach((tile, index) => {
      expect(tile.left + sheet.tileWidth).toBeLessThanOrEqual(sheet.width);
      expect(tile.top + sheet.tileHeight).toBeLessThanOrEqual(sheet.height);
      for (const other of tiles.slice(index + 1)) {
        const apart =
          Math.abs(tile.left - other.left) >= sheet.tileWidth ||
          Math.abs(tile.top - other.top) >= sheet.tileHeight;
        expect(apart).toBe(true);
      }
    });
  });

  it('shows a part of the film with the film’s own shape of pixels', () => {
    const { region, tileWidth, tileHeight } = sheetLayout(analysis, track, 1);
    expect(region.x).toBeGreaterThanOrEqual(0);
    expect(region.x + region.width).toBeLessThanOrEqual(track.width + 1e-6);
    expect(region.y + region.height).toBeLessThanOrEqual(track.height + 1e-6);
    expect(tileWidth / tileHeight).toBeCloseTo(region.width / region.height, 1);
  });
});
