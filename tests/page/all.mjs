import { runAll } from './harness.mjs';
import './walks.mjs';
import './kept.mjs';
import './apart.mjs';
import './for_everyone.mjs';
import './same_views.mjs';
import './clinic.mjs';
import './clinic_looks.mjs';
process.exit(await runAll(process.argv[2]));
