import type { FilmCheck } from '../../../analysis/check/filmCheck.js';
import { findingLines } from './findingLines.js';
import type { Style } from './style.js';
import { wrapped } from './wrapped.js';

/** What a film can be asked: the sentence, the film's facts, what to change, and the exercises. */
export function checkScreen(check: FilmCheck, style: Style): string {
  const { film, exercises } = check;
  const rate = `${film.frameRate.toFixed(film.frameRate % 1 === 0 ? 0 : 1)} frames a second`;
  const facts = [
    film.file,
    `${film.width} × ${film.height}`,
    `${film.durationSeconds.toFixed(1)} s`,
    film.variableFrameRate ? `about ${rate}, varying` : rate,
  ];
  const named = (answer: 'yes' | 'partly' | 'no') =>
    exercises.filter((exercise) => exercise.answer === answer);
  const list = (lead: string, of: readonly { readonly id: string }[]) =>
    of.length === 0 ? [] : [wrapped(of.map(({ id }) => id).join(', '), style.width, lead)];
  const [only] = exercises;
  return [
    style.colors.bold(wrapped(check.headline, style.width)),
    wrapped(facts.join(' · '), style.width),
    ...(check.findings.length > 0
      ? ['', findingLines({ quality: { findings: [...check.findings] } }, style)]
      : []),
    ...(exercises.length > 1 && check.usable
      ? [
          '',
          ...list('Yes:     ', named('yes')),
          ...list('In part: ', named('partly')),
          ...list('No:      ', named('no')),
        ]
      : []),
    ...(only !== undefined && exercises.length === 1 && only.reason !== null
      ? ['', wrapped(`${only.name}: ${only.reason}.`, style.width)]
      : []),
  ].join('\n');
}
