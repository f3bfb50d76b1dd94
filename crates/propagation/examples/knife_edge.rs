//! Prints ν and J(ν) as lines of JSON, for `tools/witness/fresnel.py` to hold against the exact Fresnel integral.

use propagation::p526::knife_edge_loss_db;

fn main() {
    for step in -300..=2000 {
        let nu = f64::from(step) * 0.01;
        println!("{{\"nu\": {nu:.2}, \"loss_db\": {:.12}}}", knife_edge_loss_db(nu));
    }
}
