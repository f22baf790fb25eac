import { existsSync } from 'node:fs';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type BrowserContext, chromium, type Page } from 'playwright-core';

const PATHS = ['/usr/bin/chromium', '/usr/bin/chromium-browser', '/usr/bin/google-chrome'];

/** The browser to test with: CHROMIUM_PATH, or a usual place. These tests never skip: without one they fail. */
function chromiumPath(): string {
  const path = process.env['CHROMIUM_PATH'] ?? PATHS.find((candidate) => existsSync(candidate));
  if (path === undefined) {
    throw new Error('The browser tests need Chromium: install the package chromium or set CHROMIUM_PATH.');
  }
  return path;
}

export interface OpenedPage {
  readonly page: Page;
  /** Errors of the page and messages of its console at the levels error and warning. */
  readonly complaints: string[];
  /** Addresses asked for, other than the page itself. */
  readonly requests: string[];
}

export interface BrowserSession {
  open(
    address: string,
    look?: { width?: number; height?: number; colorScheme?: 'light' | 'dark' },
  ): Promise<OpenedPage>;
  end(): Promise<void>;
}

/** A headless browser with an empty profile of its own, which is removed at the end. */
export async function startBrowser(): Promise<BrowserSession> {
  const profile = await mkdtemp(join(tmpdir(), 'tempofilm-browser-'));
  const context: BrowserContext = await chromium.launchPersistentContext(profile, {
    executablePath: chromiumPath(),
    headless: true,
    args: [
      '--no-sandbox',
      '--disable-gpu',
      '--disable-quic',
      '--no-first-run',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
    ],
  });
  return {
    async open(address, { width = 1280, height = 900, colorScheme = 'light' } = {}) {
      const page = await context.newPage();
      const complaints: string[] = [];
      const requests: string[] = [];
      page.on('pageerror', (error) => complaints.push(error.message));
      page.on('console', (message) => {
        if (['error', 'warning'].includes(message.type())) complaints.push(message.text());
      });
      page.on('request', (request) => {
        if (request.url() !== address) requests.push(request.url());
      });
      await page.setViewportSize({ width, height });
      await page.emulateMedia({ colorScheme });
      await page.goto(address);
      return { page, complaints, requests };
    },
    async end() {
      await context.close();
      await rm(profile, { recursive: true, force: true });
    },
  };
}
