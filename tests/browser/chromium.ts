import type { Page } from 'playwright-core';
import { startChromium } from '../../fixtures/pictures/chromium.js';

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

/** These tests never skip: without a browser they fail. */
export async function startBrowser(): Promise<BrowserSession> {
  const { context, end } = await startChromium();
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
    end,
  };
}
