namespace Broodtide.Durability;

/// <summary>What a number of sudden ends came to.</summary>
internal sealed class Outcome
{
    public int Ends { get; set; }

    public int Confirmed { get; set; }

    /// <summary>What was done but not confirmed when the end came, and is there.</summary>
    public int Unconfirmed { get; set; }

    public int Lost { get; set; }

    public int Backups { get; set; }

    /// <summary>How often a full disk was told in plain words.</summary>
    public int Refused { get; set; }

    public long UnsyncedWritesLost { get; set; }

    public List<string> Faults { get; } = [];

    public void Add(Outcome other)
    {
        Ends += other.Ends;
        Confirmed += other.Confirmed;
        Unconfirmed += other.Unconfirmed;
        Lost += other.Lost;
        Backups += other.Backups;
        Refused += other.Refused;
        UnsyncedWritesLost += other.UnsyncedWritesLost;
        Faults.AddRange(other.Faults);
    }

    /// <summary>The heads of the columns of <see cref="Row"/>.</summary>
    public static string Heads =>
        "| work | ends | confirmed | of these lost | there unconfirmed | backups confirmed | unsynced writes dropped | refusals | faults |\n"
        + "|---|---|---|---|---|---|---|---|---|";

    public string Row(string name) =>
        $"| {name} | {Ends} | {Confirmed} | {Lost} | {Unconfirmed} | {Backups} | {UnsyncedWritesLost} | {Refused} | {Faults.Count} |";
}
