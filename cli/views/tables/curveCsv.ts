import type { SetAnalysis } from '../../../analysis/analyzeSet.js';
import { csvLine } from './csv.js';

/**
 * The columns of the angle curve, a row a point. The unit is the end of a column's name; `uncertainty` is the
 * half width of a 95 % interval. Times are real seconds of the film, angles neutral-zero.
 */
export const CURVE_COLUMNS = [
  'film',
  'exercise',
  'angle',
  'bout',
  'side',
  'seconds',
  'angle_degrees',
  'angle_uncertainty_degrees',
  'rep',
  'phase',
] as const;

export const CURVE_CSV_HEADER: string = csvLine(CURVE_COLUMNS);

/** The curve of the driving angle of every bout as CSV records, without the header. */
export function curveCsv({ report, curves }: SetAnalysis): string {
  const { film, exercise } = report;
  return curves
    .flatMap((curve, index) => {
      const reps = report.bouts[index]?.reps ?? [];
      return curve.seconds.map((seconds, point) => {
        const rep = reps.find(
          ({ startSeconds, endSeconds }) => seconds >= startSeconds && seconds < endSeconds,
        );
        const phase = rep?.phases.find(
          ({ startSeconds, endSeconds }) => seconds >= startSeconds && seconds < endSeconds,
        );
        return csvLine([
          film.file,
          exercise.id,
          exercise.drivingAngle,
          index + 1,
          curve.side,
          Number(seconds.toFixed(4)),
          Number(curve.degrees[point]!.toFixed(3)),
          Number(curve.uncertaintyDegrees[point]!.toFixed(3)),
          rep?.number,
          phase?.kind,
        ]);
      });
    })
    .join('');
}
