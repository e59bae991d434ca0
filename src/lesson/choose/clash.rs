//! Why a role has no set: the requests that cannot hold together, and what would work.
