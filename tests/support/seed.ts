import fc from 'fast-check';

// One seed for all properties, so that a run can be repeated; NUTLINE_SEED=n explores others.
fc.configureGlobal({ ...fc.readConfigureGlobal(), seed: Number(process.env.NUTLINE_SEED ?? 20_161) });
