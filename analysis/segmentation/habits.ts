import { FAMILIES, type Family } from './moveFamilies.js';
import type { MoveLook } from './refineMove.js';

/** Moves of a bout whose lengths differ by less than this factor are done in like manner. */
const LIKE_DURATION = 1.7;
/** How far one lifter's like moves lie from one another, as share of how far moves of all lifters do. */
const WITHIN_LIFTER = 0.45;
/** How much the other moves' evidence for a family counts: they are like this one, not the same. */
const EVIDENCE_SHARE = 0.5;
const MOST_LOG_EVIDENCE = 6;

/**
 * What a lifter's other moves of the bout say about one move's shape, before it is looked at for itself: people
 * lower and lift much the same way from rep to rep, while the noise differs each time.
 */
export function habitsFor(looks: readonly MoveLook[], index: number): readonly Family[] {
  const own = looks[index]!;
  const alike = looks.filter((look, i) => i !== index && isAlike(own, look));
  if (alike.length === 0) return FAMILIES;
  const evidence = FAMILIES.map(({ name }) =>
    alike.reduce((sum, look) => sum + relativeEvidence(look, name), 0),
  );
  const best = Math.max(...evidence);
  return FAMILIES.map((family, f) => {
    const habit = habitOf(family, alike);
    const lead = Math.max(-MOST_LOG_EVIDENCE, EVIDENCE_SHARE * (evidence[f]! - best));
    return {
      ...family,
      ...habit,
      logShare: family.logShare + lead,
      starts: [parametersOf(own, family.name)],
    };
  });
}

function isAlike(own: MoveLook, other: MoveLook): boolean {
  if (own.fits.length === 0 || other.fits.length === 0) return false;
  const ratio = durationOf(own) / durationOf(other);
  return own.window.rising === other.window.rising && ratio < LIKE_DURATION && ratio > 1 / LIKE_DURATION;
}

function durationOf({ rough }: MoveLook): number {
  return Math.max(0.05, rough.endSeconds - rough.startSeconds);
}

function parametersOf(look: MoveLook, name: Family['name']): readonly number[] {
  return look.fits.find(({ family }) => family.name === name)!.parameters;
}

function relativeEvidence(look: MoveLook, name: Family['name']): number {
  const best = Math.max(...look.fits.map(({ logEvidence }) => logEvidence));
  const fit = look.fits.find(({ family }) => family.name === name)!;
  return Math.max(-MOST_LOG_EVIDENCE, fit.logEvidence - best);
}

/** The usual parameters of a family for this lifter: everyone's, moved by what each of their moves showed. */
function habitOf(family: Family, alike: readonly MoveLook[]): Pick<Family, 'usual' | 'deviations'> {
  const fits = alike.map((look) => look.fits.find((fit) => fit.family.name === family.name)!);
  const usual: number[] = [];
  const deviations: number[] = [];
  for (let k = 0; k < family.usual.length; k++) {
    const everyone = 1 / family.deviations[k]! ** 2;
    let precision = everyone;
    let sum = everyone * family.usual[k]!;
    for (const { parameters, variances } of fits) {
      // A fit's variance holds what was known before; what its own samples say is the rest.
      const own = Math.max(0, 1 / variances[k]! - everyone);
      const spread = (WITHIN_LIFTER * family.deviations[k]!) ** 2;
      const weight = own === 0 ? 0 : 1 / (1 / own + spread);
      const said = own === 0 ? 0 : (parameters[k]! / variances[k]! - everyone * family.usual[k]!) / own;
      precision += weight;
      sum += weight * said;
    }
    usual.push(sum / precision);
    deviations.push(Math.hypot(WITHIN_LIFTER * family.deviations[k]!, Math.sqrt(1 / precision)));
  }
  return { usual, deviations };
}
