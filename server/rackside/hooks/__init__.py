"""Outgoing webhooks: signed by the Standard Webhooks specification, retried over three days."""
