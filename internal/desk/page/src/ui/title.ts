import { state } from '../store';

/** A segment's title as a sentence has it. */
export const titleOf = (segment: string): string => state.segments.find(s => s.name === segment)?.title.toLowerCase() || segment;
