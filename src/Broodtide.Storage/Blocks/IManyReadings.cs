namespace Broodtide.Storage.Blocks;

/// <summary>What each database does in its own way because it is done so often.</summary>
internal interface IManyReadings
{
    /// <summary>Puts readings in; of one sensor at one time the first stays. How many were new.</summary>
    int Insert(IReadOnlyList<ReadingRow> rows);

    /// <summary>Removes the readings of a sensor at some times.</summary>
    void Delete(long sensor, IReadOnlyList<long> times);

    /// <summary>Keeps others away from the days of a sensor until the change is over.</summary>
    void Hold(long sensor);
}

/// <summary>One reading as it stands in a table.</summary>
/// <param name="Sensor">The sensor's number.</param>
/// <param name="At">Milliseconds since 1970 UTC.</param>
/// <param name="Value">As read.</param>
internal readonly record struct ReadingRow(long Sensor, long At, double Value);
