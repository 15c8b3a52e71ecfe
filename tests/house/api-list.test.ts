/** What users build on changes only on purpose: `npm run api` rewrites the list, and the change shows in a review. */
import { expect, it } from 'vitest';
import { apiList } from '../oracle/api-list.js';
import { root } from '../oracle/examples.js';

it('docs/api-list.txt lists every export with its type', async () => {
  await expect(apiList()).toMatchFileSnapshot(`${root}docs/api-list.txt`);
});
