import { config } from 'zod';

// Imported before anything that makes a schema: under a policy without eval, the schema library must not even try whether it may compile.
config({ jitless: true });
