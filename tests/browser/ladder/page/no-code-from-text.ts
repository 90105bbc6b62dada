import { config } from 'zod';

// Before any schema is made: the library asks whether it may make code of text, and the page's policy reports that as a breach.
config({ jitless: true });
