namespace Broodtide.Server;

/// <summary>What the person who starts the server decides.</summary>
/// <param name="Addresses">Where it listens on this machine.</param>
/// <param name="DataFolder">Where the journal is kept.</param>
/// <param name="Demo">Whether it starts with an invented scenario.</param>
internal sealed record ServerOptions(IReadOnlyList<Uri> Addresses, DirectoryInfo DataFolder, bool Demo)
{
    /// <summary>Whether sensors are invented beside the scenario.</summary>
    public bool DemoSensors { get; init; }

    /// <summary>How it is opened to the network of the house; none where it listens on this machine alone.</summary>
    public Opening.Opening? Opening { get; init; }

    /// <summary>The database that the house lies in; none where it lies in files of the data folder.</summary>
    public string? Store { get; init; }

    /// <summary>How it backs itself up; none where nobody asked for that.</summary>
    public Backups.BackupPlan? Backups { get; init; }
}
