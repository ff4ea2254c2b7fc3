//! What readings, searches and plans must reach on rendered scenes. One program, so that its long tests
//! share the cores.

mod faulty_files;
mod finding;
mod held_back;
mod processed;
mod sharpness;
mod stain_plans;
mod stains;
