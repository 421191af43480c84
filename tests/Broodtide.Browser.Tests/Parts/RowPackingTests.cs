using Broodtide.Domain.Journal;
using Broodtide.Phone.Browser;
using Broodtide.Workbench.Sharing;

namespace Broodtide.Browser.Tests.Parts;

public sealed class RowPackingTests
{
    [Fact]
    public void Rows_come_back_as_they_were_packed()
    {
        StoredRow[] rows =
        [
            new(Digest.Of([1]), Guid.CreateVersion7(), 1, [1, 2], new byte[16], [3], false),
            new(Digest.Of([2]), Guid.CreateVersion7(), long.MaxValue >> 11, [], [], [], true),
        ];

        var back = RowPacking.Unpack(RowPacking.Pack(rows));

        Assert.Equal(rows.Length, back.Count);
        foreach (var (row, again) in rows.Zip(back))
        {
            Assert.Equivalent(row, again, strict: true);
        }
    }

    [Fact]
    public void A_digest_is_packed_in_the_order_in_which_it_is_written()
    {
        var digest = Digest.Of([1, 2, 3]);

        Assert.Equal(digest.ToString(), Convert.ToHexStringLower(RowPacking.Digests([digest])));
    }
}
