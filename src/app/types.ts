/**
 * The whole job. In: texts. Out: files in memory, every program and drawing among them already proven, and findings.
 * Pure: no files, no clock, no console. Same texts, same bytes.
 */
import type { Intent } from '../intent/types.ts';
import type { Job } from '../machining/types.ts';
import type { ProgramTime } from '../timing/types.ts';
import type { Proof } from '../verify/removal/proof.ts';
import type { CutWork } from '../verify/removal/work.ts';

export type Role =
  | 'program'
  | 'drawing'
  | 'template'
  | 'preview'
  | 'cutlist'
  | 'sheet'
  | 'notes'
  | 'coordinates'
  | 'proof'
  | 'intent';

export interface OutputFile {
  /** Below the instrument's folder, with forward slashes. */
  readonly path: string;
  readonly role: Role;
  readonly part: string | null;
  readonly operation: string | null;
  readonly bytes: Uint8Array;
}

/** A program as written, what it was meant to do, and what reading it back showed. */
export interface ProvenProgram {
  readonly path: string;
  readonly intentPath: string;
  /** The first of its jobs; the only one unless the machine changes tools. */
  readonly job: Job;
  /** One for each tool, in order. */
  readonly jobs: readonly Job[];
  readonly text: string;
  /** What the first job is meant to do. */
  readonly intent: Intent;
  /** One for each job. */
  readonly intents: readonly Intent[];
  readonly intentText: string;
  readonly proof: Proof;
  /** Which lines work on which cut, one list for each job; empty where the proof broke off before. */
  readonly work: readonly (readonly CutWork[])[];
  /** How long it takes; all 0 when it did not prove. */
  readonly time: ProgramTime;
}

export interface SourceText {
  /** As the person named it, without a machine's folders. */
  readonly path: string;
  readonly text: string;
}

/** The two files a job is made from, and how to get at files that the shop file includes. */
export interface JobSources {
  readonly profile: SourceText;
  readonly shop: SourceText;
  readonly readInclude: (name: string) => string | null;
  /** Text of a file that the profile names, as seen from its folder. Left out: there is none. */
  readonly readBeside?: (name: string) => string | null;
}
