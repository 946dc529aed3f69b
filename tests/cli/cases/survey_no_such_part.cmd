insideline survey solos --shard 5/4
