using Broodtide.Storage.Blocks;
using Broodtide.Storage.Sqlite;
using Broodtide.Units;
using NodaTime;

namespace Broodtide.Storage.Verifying;

/// <summary>Verifies what sensors read: the pages of the file, and each closed day against the hash that names it.</summary>
public static class ReadingsCheck
{
    /// <summary>What is wrong with a file of readings, and how many closed days it holds. It is not changed.</summary>
    /// <param name="path">The file; where none is, nothing is wrong.</param>
    /// <param name="cancellation">Gives up between days.</param>
    public static async Task<(IReadOnlyList<Remark> Faults, int Days)> OfAsync(
        string path,
        CancellationToken cancellation = default
    )
    {
        if (!File.Exists(path))
        {
            return ([], 0);
        }

        var faults = StoreCopy.Check(path, isJournal: false, cancellation).Faults.ToList();
        if (faults.Count > 0)
        {
            return (faults, 0);
        }

        try
        {
            await using var readings = ReadingsFile.Open(path);
            var days = 0;
            foreach (var sensor in await readings.SensorsAsync(cancellation))
            {
                foreach (
                    var seen in await readings.BlocksAsync(
                        sensor.Id,
                        LocalDate.MinIsoValue,
                        LocalDate.MaxIsoValue,
                        cancellation
                    )
                )
                {
                    days++;
                    if (await readings.BlockAsync(seen.Sha256, cancellation) is not { Succeeded: true } block)
                    {
                        faults.Add(
                            new Remark(
                                "day-of-readings-damaged",
                                new("file", path),
                                new("sensor", sensor.Id.ToString()),
                                new("day", seen.Day)
                            )
                        );
                    }
                }
            }

            return (faults, days);
        }
        catch (StoreUnusableException unusable)
        {
            return ([unusable.Reason], 0);
        }
    }
}
