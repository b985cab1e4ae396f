import { config } from 'zod';

// The page forbids itself to make programs of text; a schema that tries it all the same is a fault that browsers report.
config({ jitless: true });
