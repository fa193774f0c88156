/** The one line that says why a review could not be made. */
import { CommanderError } from 'commander';
import { ChromiumError } from '../platform/chromium.js';
import { InputError } from '../read/container.js';
import { AssumptionError } from '../rules/assumption-error.js';
import { RuleDocumentError } from '../rules/rule-document-error.js';
import { UsageError } from './io.js';

/** The exit code that goes with it. */
export const CANNOT_REVIEW = 2;

export const faultLine = (error: unknown): string => `ratedrun: ${oneLine(messageOf(error))}\n`;

function messageOf(error: unknown): string {
  if (error instanceof CommanderError)
    return error.code === 'commander.help'
      ? 'no command given; try ratedrun --help'
      : `${error.message.replace(/^error: /, '')}; try ratedrun --help`;
  if (error instanceof UsageError || error instanceof InputError || error instanceof ChromiumError)
    return error.message;
  if (error instanceof AssumptionError) return `--assume: ${error.message}`;
  if (error instanceof RuleDocumentError) return `${error.file}:${error.line}:${error.column} ${error.message}`;
  return `stopped by an error of its own (${error instanceof Error ? error.message : String(error)}); please report it with the model`;
}

const oneLine = (text: string): string => text.replace(/\s*\n\s*/g, ' ').trim();
