namespace Broodtide.Durability;

/// <summary>What a number of sudden ends came to.</summary>
internal sealed class Outcome
{
    public int Ends { get; set; }

    public int Confirmed { get; set; }

    /// <summary>Entries that were written but not confirmed when the end came, and are there.</summary>
    public int Unconfirmed { get; set; }

    public int Lost { get; set; }

    public long UnsyncedWritesLost { get; set; }

    public List<string> Faults { get; } = [];

    public string Say(string name) =>
        $"{name}: {Ends}, entries confirmed: {Confirmed}, of these lost: {Lost}, there without having been "
        + $"confirmed: {Unconfirmed}, unsynced writes dropped: {UnsyncedWritesLost}, faults: {Faults.Count}";
}
