/// <reference lib="dom" />
import type { PlayerData } from './playFilm.js';

/**
 * Runs in the page, by itself: jumps from buttons and keys. Keys act only while the focus is inside the
 * player, so that they never take over those of a screen reader (WCAG 2.2, success criterion 2.1.4).
 */
export function jumpAndKeys(): void {
  const data = JSON.parse(document.getElementById('set-data')!.textContent!) as PlayerData;
  const player = document.getElementById('player')!;
  const figure = document.getElementById('player-figure') as HTMLInputElement | null;
  const reps = data.bouts.flatMap((bout) => bout.reps).sort((first, second) => first.from - second.from);
  let now = data.fromSeconds;
  const seek = (seconds: number) =>
    document.dispatchEvent(new CustomEvent('tempofilm-seek', { detail: { seconds } }));
  const nextRep = () => {
    const rep = reps.find((candidate) => candidate.from > now + 0.05);
    if (rep !== undefined) seek(rep.from);
  };
  const previousRep = () => {
    const rep = reps.filter((candidate) => candidate.from < now - 0.3).at(-1);
    if (rep !== undefined) seek(rep.from);
  };

  document.addEventListener('tempofilm-time', (event) => {
    now = (event as CustomEvent<{ seconds: number }>).detail.seconds;
  });
  document.getElementById('player-next')!.addEventListener('click', nextRep);
  document.getElementById('player-previous')!.addEventListener('click', previousRep);
  for (const button of document.querySelectorAll<HTMLButtonElement>('button[data-seconds]')) {
    button.addEventListener('click', () => {
      seek(Number(button.dataset['seconds']));
      const still = window.matchMedia('(prefers-reduced-motion: reduce)').matches;
      document
        .querySelector('.stage')!
        .scrollIntoView({ block: 'nearest', behavior: still ? 'auto' : 'smooth' });
    });
  }
  player.addEventListener('keydown', (event) => {
    if (event.ctrlKey || event.altKey || event.metaKey) return;
    const target = event.target as HTMLElement;
    const onControl = ['BUTTON', 'SELECT', 'INPUT', 'SUMMARY'].includes(target.tagName);
    const onSlider = target instanceof HTMLInputElement && target.type === 'range';
    const actions: Record<string, (() => void) | undefined> = {
      n: nextRep,
      p: previousRep,
      f: () => figure?.click(),
      ',': () => seek(now - 1 / 30),
      '.': () => seek(now + 1 / 30),
    };
    if (target.tagName !== 'SELECT' && !onSlider) {
      actions['ArrowLeft'] = () => seek(now - 1);
      actions['ArrowRight'] = () => seek(now + 1);
    }
    if (!onControl || onSlider) actions[' '] = () => document.dispatchEvent(new Event('tempofilm-toggle'));
    const action = actions[event.key];
    if (action === undefined) return;
    event.preventDefault();
    action();
  });
}
