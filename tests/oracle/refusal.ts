import { GeneratrixError } from 'generatrix';

/** Calls, and gives the refusal's code and parameter. */
export function refusal(call: () => unknown): string {
  try {
    call();
  } catch (error) {
    if (error instanceof GeneratrixError) return `${error.code} ${error.parameter}`;
    throw error;
  }
  return 'accepted';
}
