import type { Command } from '@commander-js/extra-typings';

/** The program that a command file adds its command to, in a function `register…(program: Program): void`. */
export type Program = Command;
