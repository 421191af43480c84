namespace Broodtide.Workbench.Dossiers;

/// <summary>
/// What a foreign data package may be at most. Dossiers of years with photos stay far below; a file made to fill a disk or
/// a memory does not get beyond. Own choice, no source.
/// </summary>
public static class PackageLimits
{
    /// <summary>Bytes of a packed file.</summary>
    public const long LargestPacked = 256_000_000;

    /// <summary>Bytes of all files, unpacked.</summary>
    public const long LargestUnpacked = 256_000_000;

    /// <summary>Bytes of one file, unpacked.</summary>
    public const long LargestFile = 96_000_000;

    /// <summary>Bytes of the descriptor.</summary>
    public const long LargestDescriptor = 4_000_000;

    /// <summary>Files in one package.</summary>
    public const int MostFiles = 2_000;

    /// <summary>Entries of a journal in one package.</summary>
    public const int MostEntries = 200_000;

    /// <summary>Runs in one package.</summary>
    public const int MostRuns = 200;

    /// <summary>
    /// Unpacked bytes for one packed byte, once a file has unpacked to <see cref="RatioFrom"/>: text of this kind comes to
    /// 30 at most.
    /// </summary>
    public const long MostRatio = 200;

    /// <summary>Bytes up to which no ratio is looked at.</summary>
    public const long RatioFrom = 1_000_000;
}
