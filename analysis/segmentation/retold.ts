import type { MeasuredBout, MeasuredDegrees, MeasuredPhase, MeasuredRep } from './bout.js';
import type { TrueDegrees } from './trueDegrees.js';

/** The same reps at the same times, their degrees the joint's true ones. */
export function retold<Bout extends MeasuredBout>(bout: Bout, told: TrueDegrees): Bout & TrueDegrees {
  return { ...bout, ...told, reps: bout.reps.map((rep) => retoldRep(rep, told.degreesOf)) };
}

function retoldRep(rep: MeasuredRep, degreesOf: (degrees: number) => number): MeasuredRep {
  const end = (measured: MeasuredDegrees | null) =>
    measured === null ? null : { ...measured, degrees: degreesOf(measured.degrees) };
  const phases = rep.phases.map((phase): MeasuredPhase => {
    // Holds have no degrees of their own.
    if (phase.middleSeconds === null) return phase;
    return {
      ...phase,
      fromDegrees: degreesOf(phase.fromDegrees),
      toDegrees: degreesOf(phase.toDegrees),
      stalls: phase.stalls.map((stall) => ({ ...stall, degrees: degreesOf(stall.degrees) })),
    };
  });
  const excursion = (kind: MeasuredPhase['kind'], measured: MeasuredDegrees | null) => {
    const move = phases.find((phase) => phase.kind === kind);
    if (measured === null || move === undefined) return measured;
    return { ...measured, degrees: Math.abs(move.toDegrees - move.fromDegrees) };
  };
  return {
    ...rep,
    phases,
    stretched: end(rep.stretched),
    contracted: end(rep.contracted),
    eccentricExcursion: excursion('eccentric', rep.eccentricExcursion),
    concentricExcursion: excursion('concentric', rep.concentricExcursion),
  };
}
