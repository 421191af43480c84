using System.Security.Cryptography;

namespace Broodtide.Workbench.Dossiers;

/// <summary>One file of a data package.</summary>
/// <param name="Path">Its place in the package, parted by slashes.</param>
/// <param name="Bytes">What is in it.</param>
public sealed record PackedFile(string Path, ReadOnlyMemory<byte> Bytes)
{
    /// <summary>SHA-256 of its bytes, 64 lower-case hex figures.</summary>
    public string Sha256 { get; } = Convert.ToHexStringLower(SHA256.HashData(Bytes.Span));
}
