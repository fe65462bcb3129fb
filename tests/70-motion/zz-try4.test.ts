import { it } from 'vitest';
import { prove } from '../../src/verify/prove.ts';
import { bytesOf } from '../support/proofSamples.ts';
import { boardPrograms, surfacingShop } from '../support/surfaced.ts';
import { boardWith, cone } from '../support/boards.ts';
import { writeFileSync } from 'node:fs';
it('x', { timeout: 200000 }, () => {
  const out: string[] = [];
  const cases: [string, any, any][] = [
    ['cylinder', boardWith({radius: 305}), surfacingShop],
    ['cone flat', boardWith({...cone(254, 406.4)}), surfacingShop],
    ['matched', boardWith({radius: 254, radiusAlong: {kind:'matched'}}), surfacingShop],
    ['narrowing cone', boardWith({...cone(406.4, 300)}), surfacingShop],
    ['steep cone', boardWith({...cone(184, 406.4)}), surfacingShop],
  ];
  for (const [name, inst, shop] of cases) {
    try {
      const t = Date.now();
      for (const p of boardPrograms(inst, shop).filter(p=>p.name.includes('surface'))) {
        const t0 = Date.now();
        const proof = prove(bytesOf(p.text), p.intent);
        const figures = ['floor deep','gouge','ridges left','bite'].map(n => n + ' ' + Math.max(...proof.checks.filter(c=>c.name===n).map(c=>c.value)).toFixed(4)+'/'+Math.max(...proof.checks.filter(c=>c.name===n).map(c=>c.limit)).toFixed(3));
        out.push(`${name}: ${p.name} ${proof.passed} ${Date.now()-t0} ms ${p.text.length} ${figures.join(', ')} seen ${proof.checks.find(c=>c.name==='ridges left')?.seen}`);
        for (const r of proof.refusals.slice(0,3)) out.push('   '+JSON.stringify(r));
        for (const c of proof.checks.filter(c=>!c.passed).slice(0,4)) out.push('   '+JSON.stringify(c));
      }
      out.push(`${name} ${Date.now()-t} ms`);
    } catch (e) { out.push(`${name}: ${(e as Error).message.slice(0,600)}`); }
  }
  writeFileSync('/tmp/try4.out', out.join('\n'));
});
