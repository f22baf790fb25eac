import type { SymmetryReport } from '../../../../analysis/report/setReport.js';

/** An invented comparison of the sides: the lowering differs, the rest does not. */
export function sampleSymmetry(repsPerSide: number): SymmetryReport {
  return {
    firstSide: 'left',
    measures: [
      {
        measure: 'range',
        unit: 'degrees',
        left: 87.2,
        right: 89.6,
        difference: -2.4,
        interval: [-7.1, 2.3],
        ratio: 0.97,
        different: false,
      },
      {
        measure: 'eccentric-seconds',
        unit: 'seconds',
        left: 3.42,
        right: 3.71,
        difference: -0.29,
        interval: [-0.52, -0.06],
        ratio: 0.92,
        different: true,
      },
      {
        measure: 'concentric-seconds',
        unit: 'seconds',
        left: 1.2,
        right: 1.13,
        difference: 0.07,
        interval: [-0.05, 0.19],
        ratio: 1.06,
        different: false,
      },
      {
        measure: 'reps',
        unit: 'reps',
        left: repsPerSide,
        right: repsPerSide,
        difference: 0,
        interval: [0, 0],
        ratio: 1,
        different: false,
      },
    ],
    sentence: 'The left lowered 0.3 s quicker than the right; no difference in range this camera could see.',
  };
}
