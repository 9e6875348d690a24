"""The written description of a quilt and its completeness against Object ID."""
