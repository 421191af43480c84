using Broodtide.Units;

namespace Broodtide.Storage;

/// <summary>
/// A store or a file beside it cannot be used: foreign, newer, cut short, damaged, or on a disk that does not keep
/// what it promises. Nothing was changed. The reason says what, where and what is allowed.
/// </summary>
public sealed class StoreUnusableException : IOException
{
    /// <summary>For a reason.</summary>
    /// <param name="reason">What, where and what is allowed.</param>
    /// <param name="inner">What failed below, if anything did.</param>
    public StoreUnusableException(Remark reason, Exception? inner = null)
        : base(reason.ToString(), inner) => Reason = reason;

    /// <summary>What, where and what is allowed; doors turn it into words.</summary>
    public Remark Reason { get; }
}
