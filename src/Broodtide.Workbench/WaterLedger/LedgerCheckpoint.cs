using System.Reflection;
using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Science.Estimation;
using Broodtide.Units;

namespace Broodtide.Workbench.WaterLedger;

/// <summary>
/// The accounts of a house as one checkpoint. It is believed by the very build that wrote it and by no other, so that a formula that
/// was changed is never mixed with what came of it before.
/// </summary>
internal static class LedgerCheckpoint
{
    /// <summary>Name under which it is kept.</summary>
    public const string Fold = "water ledger";

    private const int Version = 1;

    private static readonly byte[]? Build = BuildOf([
        typeof(Interval).Assembly,
        typeof(WaterSaltFilter).Assembly,
        typeof(Account).Assembly,
        typeof(LedgerCheckpoint).Assembly,
    ]);

    /// <summary>The checkpoint of some accounts; none in a build that cannot tell itself from another.</summary>
    public static Checkpoint? Write(IReadOnlyList<(EntryId First, byte[] Bytes)> kept)
    {
        if (Build is null)
        {
            return null;
        }

        var state = LedgerBasis.Bytes(to =>
        {
            to.Write(Build);
            to.Write(kept.Count);
            foreach (var (first, bytes) in kept)
            {
                to.Put(first.Value);
                to.Put(bytes);
            }
        });
        return new Checkpoint(Fold, Version, kept.Count, PrefixMark.Of(state), state);
    }

    /// <summary>The accounts in a checkpoint; none where it is another's, an older build's or damaged.</summary>
    public static IReadOnlyList<(EntryId First, byte[] Bytes)> Read(Checkpoint checkpoint)
    {
        if (
            Build is null
            || !string.Equals(checkpoint.Fold, Fold, StringComparison.Ordinal)
            || checkpoint.Version != Version
            || PrefixMark.Of(checkpoint.State.Span) != checkpoint.Mark
            || !checkpoint.State.Span.StartsWith(Build)
        )
        {
            return [];
        }

        try
        {
            using var from = new BinaryReader(new MemoryStream(checkpoint.State[Build.Length..].ToArray()));
            var kept = new (EntryId First, byte[] Bytes)[from.Count()];
            for (var at = 0; at < kept.Length; at++)
            {
                kept[at] = (new EntryId(from.Id()), from.Bytes());
            }

            return kept;
        }
        catch (Exception e) when (e is IOException or InvalidDataException)
        {
            // Not what was put in.
            return [];
        }
    }

    private static byte[]? BuildOf(IReadOnlyList<Assembly> assemblies)
    {
        try
        {
            return
            [
                .. assemblies.SelectMany(assembly => assembly.ManifestModule.ModuleVersionId.ToByteArray()),
            ];
        }
        catch (InvalidOperationException)
        {
            // Compiled ahead of time a module may not know which build it is.
            return null;
        }
    }
}
