/// <reference lib="dom" />

/** What the page tells its scripts, as JSON in the element `set-data`. Times are real seconds. */
export interface PlayerData {
  readonly slowMotionFactor: number;
  readonly fromSeconds: number;
  readonly toSeconds: number;
  readonly bouts: readonly {
    readonly name: string;
    readonly reps: readonly {
      readonly number: number;
      readonly from: number;
      readonly to: number;
      readonly phases: readonly {
        readonly word: string;
        readonly from: number;
        readonly to: number;
        readonly planned: number | 'X' | null;
      }[];
    }[];
    /** Whether the camera's view allows degrees; else the curve only shows times. */
    readonly degreesTold: boolean;
    readonly curve: { readonly seconds: readonly number[]; readonly degrees: readonly number[] } | null;
  }[];
}

/**
 * Runs in the page, by itself: keeps the one clock, taken from the film where there is one, else its own.
 * Other parts ask for a time with the event `tempofilm-seek` and hear of it through `tempofilm-time`.
 */
export function playFilm(): void {
  const data = JSON.parse(document.getElementById('set-data')!.textContent!) as PlayerData;
  const film = document.querySelector<HTMLVideoElement>('video.film');
  const stage = document.querySelector<HTMLElement>('.stage')!;
  const slider = document.getElementById('player-time') as HTMLInputElement;
  const playButton = document.getElementById('player-play') as HTMLButtonElement;
  const speed = document.getElementById('player-speed') as HTMLSelectElement;
  const clock = document.getElementById('player-clock')!;
  const factor = data.slowMotionFactor;
  let filmPlays = film !== null;
  let seconds = data.fromSeconds;
  let running = false;
  let lastTick = 0;

  const clockText = (value: number) => {
    const tenths = Math.round(Math.max(0, value) * 10);
    const rest = ((tenths % 600) / 10).toFixed(1);
    return `${Math.floor(tenths / 600)}:${rest.padStart(4, '0')}`;
  };
  const tell = () => {
    if (document.activeElement !== slider || running) slider.value = String(seconds);
    slider.setAttribute('aria-valuetext', clockText(seconds));
    clock.textContent = `${clockText(seconds)} of ${clockText(data.toSeconds)}`;
    playButton.textContent = running ? 'Pause' : 'Play';
    document.dispatchEvent(new CustomEvent('tempofilm-time', { detail: { seconds, running } }));
  };
  const tick = (now: number) => {
    if (!running) return;
    if (filmPlays && film !== null) {
      seconds = film.currentTime / factor;
    } else {
      // Cut long pauses (a hidden tab), so that the figure does not leap.
      seconds += (Math.min(250, now - lastTick) / 1000) * Number(speed.value);
      lastTick = now;
      if (seconds >= data.toSeconds) {
        seconds = data.toSeconds;
        running = false;
      }
    }
    tell();
    if (running) requestAnimationFrame(tick);
  };
  const run = () => {
    running = true;
    lastTick = performance.now();
    requestAnimationFrame(tick);
    tell();
  };
  const stop = () => {
    running = false;
    tell();
  };
  const toggle = () => {
    if (running) {
      if (filmPlays && film !== null) film.pause();
      else stop();
      return;
    }
    if (seconds >= data.toSeconds - 0.01) seek(data.fromSeconds);
    if (filmPlays && film !== null) void film.play().catch(() => stop());
    else run();
  };
  function seek(to: number): void {
    seconds = Math.min(data.toSeconds, Math.max(data.fromSeconds, to));
    if (filmPlays && film !== null) film.currentTime = seconds * factor;
    tell();
  }
  const withoutFilm = () => {
    if (!filmPlays) return;
    filmPlays = false;
    film?.remove();
    stage.classList.add('without-film');
    document.getElementById('film-missing')?.removeAttribute('hidden');
    tell();
  };

  if (film !== null) {
    film.addEventListener('play', run);
    film.addEventListener('pause', stop);
    film.addEventListener('ended', stop);
    film.addEventListener('seeked', () => {
      seconds = film.currentTime / factor;
      tell();
    });
    film.addEventListener('error', withoutFilm);
    const embedded = document.getElementById('film-data');
    if (embedded !== null) {
      const bytes = Uint8Array.from(atob(embedded.textContent!), (character) => character.charCodeAt(0));
      film.src = URL.createObjectURL(new Blob([bytes], { type: embedded.dataset['type'] ?? 'video/mp4' }));
    } else if (film.error !== null) {
      // It failed before this script ran. (`networkState` can't tell: it passes NETWORK_NO_SOURCE on its way to loading.)
      withoutFilm();
    }
  }
  playButton.addEventListener('click', toggle);
  speed.addEventListener('change', () => {
    if (film !== null) film.playbackRate = Number(speed.value);
  });
  slider.addEventListener('input', () => seek(Number(slider.value)));
  document.addEventListener('tempofilm-seek', (event) => {
    seek((event as CustomEvent<{ seconds: number }>).detail.seconds);
  });
  document.addEventListener('tempofilm-toggle', toggle);
  tell();
}
