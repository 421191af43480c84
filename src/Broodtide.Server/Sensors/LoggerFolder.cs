using System.Security.Cryptography;
using System.Text;
using Broodtide.Server.Words;
using Broodtide.Units;
using Broodtide.Workbench.Sensors;
using NodaTime;

namespace Broodtide.Server.Sensors;

/// <summary>
/// A folder with a folder for each logger, in which its files are put beside its mapping. A file that is still written is
/// waited for; one that was taken goes into done, one that cannot be taken into refused, with the reason beside it. The
/// same file twice is one.
/// </summary>
internal sealed class LoggerFolder(string path, SensorIntake intake, SemaphoreSlim taking, IClock clock)
{
    public const string MapName = "mapping.json";
    public const string Done = "done";
    public const string Refused = "refused";

    private const long LargestFile = 512L * 1024 * 1024;
    private const int AtOnce = 5_000;

    // Of a file that ends without a line end more may come; after so long nothing does.
    private static readonly Duration Patience = Duration.FromMinutes(10);
    private static readonly Duration Settled = Duration.FromSeconds(5);

    private readonly Dictionary<string, (long Length, Instant Since)> _waiting = new(StringComparer.Ordinal);

    /// <summary>Looks once; files that are ready are taken.</summary>
    /// <returns>How many were taken or refused.</returns>
    public async Task<int> LookAsync(CancellationToken cancel)
    {
        if (!Directory.Exists(path))
        {
            return 0;
        }

        var dealt = 0;
        foreach (var logger in new DirectoryInfo(path).EnumerateDirectories())
        {
            if (!SensorId.IsPlain(logger.Name) || logger.LinkTarget is not null)
            {
                continue;
            }

            foreach (var file in logger.EnumerateFiles().OrderBy(file => file.Name, StringComparer.Ordinal))
            {
                if (file.Name != MapName && file.LinkTarget is null && IsReady(file))
                {
                    await DealAsync(logger, file, cancel);
                    _waiting.Remove(file.FullName);
                    dealt++;
                }
            }
        }

        return dealt;
    }

    private bool IsReady(FileInfo file)
    {
        var now = clock.GetCurrentInstant();
        if (
            !_waiting.TryGetValue(file.FullName, out var seen)
            || seen.Length != file.Length
            || file.Length == 0
        )
        {
            _waiting[file.FullName] = (file.Length, now);
            return false;
        }

        var stood = now - seen.Since;
        return stood >= Patience || (stood >= Settled && EndsWithLine(file));
    }

    private static bool EndsWithLine(FileInfo file)
    {
        try
        {
            using var stream = file.OpenRead();
            stream.Seek(-1, SeekOrigin.End);
            return stream.ReadByte() is '\n' or '\r';
        }
        catch (IOException)
        {
            // Somebody else has it open for himself: he is not done.
            return false;
        }
    }

    private async Task DealAsync(DirectoryInfo logger, FileInfo file, CancellationToken cancel)
    {
        var (name, why) = await TakeAsync(logger, file, cancel);
        var target = logger.CreateSubdirectory(why is null ? Done : Refused);
        // The hash in its name: the same file again finds itself there.
        var place = Path.Combine(
            target.FullName,
            $"{Path.GetFileNameWithoutExtension(file.Name)}.{name[..12]}{file.Extension}"
        );
        if (why is not null)
        {
            await File.WriteAllTextAsync(
                place + ".reason.txt",
                $"{why.Code}\n{Said.Sentence(new Remark("logger-refused"))}\n{why}\n",
                Encoding.UTF8,
                cancel
            );
        }

        file.MoveTo(place, overwrite: true);
    }

    private async Task<(string Name, Remark? Why)> TakeAsync(
        DirectoryInfo logger,
        FileInfo file,
        CancellationToken cancel
    )
    {
        await using var stream = file.OpenRead();
        var name = Convert.ToHexStringLower(await SHA256.HashDataAsync(stream, cancel));
        if (file.Length > LargestFile)
        {
            return (name, new Remark("logger-file-too-large"));
        }

        var done = new DirectoryInfo(Path.Combine(logger.FullName, Done));
        if (done.Exists && done.EnumerateFiles($"*.{name[..12]}*").Any())
        {
            return (name, null);
        }

        var map = Path.Combine(logger.FullName, MapName);
        if (!File.Exists(map))
        {
            return (name, new Remark("logger-map-missing"));
        }

        stream.Position = 0;
        var read = await LoggerFile.ReadAsync(
            stream,
            logger.Name,
            await File.ReadAllBytesAsync(map, cancel),
            clock.GetCurrentInstant(),
            cancel
        );
        return (name, read.Succeeded ? await KeepAsync(read.Value, cancel) : read.Reason);
    }

    // Asked of every column before any is kept: a file is taken whole or not at all.
    private async Task<Remark?> KeepAsync(IReadOnlyList<LoggedColumn> columns, CancellationToken cancel)
    {
        foreach (var column in columns)
        {
            if (intake.AboutOf(column.Sensor) is { } known && known.Unit != column.About.Unit)
            {
                return new Remark("sensor-unit-changed");
            }
        }

        foreach (var column in columns)
        {
            foreach (var part in column.Readings.Chunk(AtOnce))
            {
                await taking.WaitAsync(cancel);
                try
                {
                    await intake.KeepAsync(column.Sensor, column.About, part, cancel);
                }
                finally
                {
                    taking.Release();
                }
            }
        }

        return null;
    }
}
