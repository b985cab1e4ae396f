import { spawn, spawnSync } from 'node:child_process';
import { chmodSync, mkdirSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { hostname, tmpdir } from 'node:os';
import { join } from 'node:path';
import { until } from './small-sweep.ts';

const NEEDED = ['munged', 'slurmctld', 'slurmd', 'sbatch', 'squeue', 'sinfo', 'scontrol', 'runuser'];

/** Why no Slurm of its own can be started here; undefined where it can. */
export function noSlurm(): string | undefined {
  if (process.getuid?.() !== 0) return 'only root may start it';
  const lacks = NEEDED.filter((name) => spawnSync('sh', ['-c', `command -v ${name}`]).status !== 0);
  if (lacks.length > 0) return `${lacks.join(', ')} not installed`;
  return spawnSync('getent', ['hosts', shortName()]).status === 0
    ? undefined
    : `the name ${shortName()} does not resolve`;
}

const shortName = (): string => hostname().split('.')[0]!;

/** A Slurm of this machine alone, two nodes of one core each. */
export interface Slurm {
  /** Runs one of its commands. @throws Error with what it said */
  run: (command: string, ...words: string[]) => string;
  /** Waits until a job is gone from the queue. */
  over: (job: string) => Promise<void>;
  stop: () => Promise<void>;
}

/** Its settings, one key a line: ports that nobody else uses, munge by a socket of its own. */
const settings = (folder: string): string => `ClusterName=one
SlurmctldHost=${shortName()}(127.0.0.1)
SlurmUser=root
SlurmdUser=root
SlurmctldPort=17000
AuthType=auth/munge
AuthInfo=socket=${folder}/munge/socket,cred_expire=5
StateSaveLocation=${folder}/state
SlurmdSpoolDir=${folder}/spool.%n
SlurmctldPidFile=${folder}/slurmctld.pid
SlurmdPidFile=${folder}/slurmd.%n.pid
SlurmctldLogFile=${folder}/log/slurmctld
SlurmdLogFile=${folder}/log/slurmd.%n
ProctrackType=proctrack/linuxproc
TaskPlugin=task/none
JobAcctGatherType=jobacct_gather/none
MpiDefault=none
SelectType=select/cons_tres
SelectTypeParameters=CR_CPU
ReturnToService=2
KillWait=5
SlurmdTimeout=10
SchedulerParameters=batch_sched_delay=0,sched_interval=1,bf_interval=1
NodeName=n1 NodeHostname=${shortName()} NodeAddr=127.0.0.1 Port=17001 CPUs=1 RealMemory=2000
NodeName=n2 NodeHostname=${shortName()} NodeAddr=127.0.0.1 Port=17002 CPUs=1 RealMemory=2000
PartitionName=all Nodes=n1,n2 Default=YES MaxTime=INFINITE State=UP
`;

/** Starts a Slurm of its own, without a service manager. */
export async function startSlurm(): Promise<Slurm> {
  const folder = mkdtempSync(join(tmpdir(), 'tubgap-slurm-'));
  chmodSync(folder, 0o755);
  for (const name of ['state', 'log', 'munge', 'spool.n1', 'spool.n2']) mkdirSync(join(folder, name));
  writeFileSync(join(folder, 'slurm.conf'), settings(folder));
  const env = { ...process.env, SLURM_CONF: join(folder, 'slurm.conf') };
  const run = (command: string, ...words: string[]): string => {
    const { status, stdout, stderr } = spawnSync(command, words, { env, encoding: 'utf8' });
    if (status !== 0) throw new Error(`${command} ${words.join(' ')}: ${stderr}`);
    return stdout;
  };
  const munge = join(folder, 'munge');
  run(
    'sh',
    '-c',
    `head -c 1024 /dev/urandom > ${munge}/key && chown -R munge: ${munge} && chmod 755 ${munge} && chmod 400 ${munge}/key`,
  );
  const files = ['key', 'socket', 'pid', 'log', 'seed'].map((name) => join(munge, name)) as [
    string,
    string,
    string,
    string,
    string,
  ];
  const [key, socket, pid, log, seed] = files;
  run(
    ...(['runuser', '-u', 'munge', '--'] as const),
    ...[
      'munged',
      `--key-file=${key}`,
      `--socket=${socket}`,
      `--pid-file=${pid}`,
      `--log-file=${log}`,
      `--seed-file=${seed}`,
    ],
  );
  for (const [command, ...words] of [
    ['slurmctld', '-c'],
    ['slurmd', '-N', 'n1'],
    ['slurmd', '-N', 'n2'],
  ] as const) {
    spawn(command, words, { env, detached: true, stdio: 'ignore' }).unref();
  }
  const states = (): string => spawnSync('sinfo', ['-h', '-N', '-o', '%T'], { env, encoding: 'utf8' }).stdout;
  await until('both nodes are idle', () => /^idle\nidle\n$/.test(states()));
  return {
    run,
    over: (job) =>
      until(
        'the job is over',
        () => spawnSync('squeue', ['-h', '-j', job], { env, encoding: 'utf8' }).stdout.trim() === '',
      ),
    stop: async () => {
      run('scontrol', 'shutdown');
      await until('its daemons are gone', () => !readdirSync(folder).some((name) => name.endsWith('.pid')));
      run('sh', '-c', `kill $(cat ${pid})`);
      rmSync(folder, { recursive: true, force: true });
    },
  };
}
