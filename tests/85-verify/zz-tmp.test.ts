import { it } from 'vitest';
import { writeFileSync } from 'node:fs';
import { MACHINES, programsOn } from '../support/machines.ts';
import { runRs274 } from '../support/rs274.ts';
it('x', () => {
  const M=['position','wall overcut','floor deep','floor shallow','tab height','wall undercut'];
  const fig=(ps:any)=>new Map<string,number>(ps.flatMap((p:any)=>p.proof.checks).filter((c:any)=>c.cut&&M.includes(c.name)).map((c:any)=>[c.cut+':'+c.name,c.value]));
  const ends=(ps:any)=>ps.flatMap((p:any)=>runRs274(p.text)).filter((m:any)=>m.kind==='feed'||m.kind==='arc').map((m:any)=>m.end);
  const ref=programsOn({}); const rf=fig(ref); const re=ends(ref); const out:string[]=[];
  for(const n of ['no arcs','inches with five digits','inches with four digits','three digits','five digits','drill cycles','tool change, touched off']){
    const ps=programsOn(MACHINES[n]!); const f=fig(ps); let w=0,wk=''; for(const [k,v] of f){ if(k.endsWith('undercut'))continue; const d=Math.abs(v-(rf.get(k)??NaN)); if(d>w){w=d;wk=k;} }
    const e=ends(ps); let g=0; if(e.length===re.length) e.forEach((p:any,i:number)=>{g=Math.max(g,Math.hypot(p[0]-re[i][0],p[1]-re[i][1],p[2]-re[i][2]));});
    out.push(`${n}: figures differ by ${w.toFixed(5)} (${wk}); rs274 ends ${e.length}/${re.length} worst ${g.toFixed(5)}`);
  }
  writeFileSync('/tmp/measure.txt', out.join('\n'));
}, 300000);
