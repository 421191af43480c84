using Broodtide.Phone.Browser;

namespace Broodtide.Browser.Tests.Parts;

public sealed class RowPackingTests
{
    [Fact]
    public void Rows_come_back_as_they_were_packed()
    {
        StoredRow[] rows =
        [
            new(Guid.CreateVersion7(), Guid.CreateVersion7(), 1, [1, 2], new byte[16], [3], false),
            new(Guid.CreateVersion7(), Guid.CreateVersion7(), long.MaxValue >> 11, [], [], [], true),
        ];

        var back = RowPacking.Unpack(RowPacking.Pack(rows));

        Assert.Equal(rows.Length, back.Count);
        foreach (var (row, again) in rows.Zip(back))
        {
            Assert.Equivalent(row, again, strict: true);
        }
    }

    [Fact]
    public void An_id_is_packed_in_the_order_in_which_it_is_written()
    {
        var id = new Guid("00112233-4455-6677-8899-aabbccddeeff");

        Assert.Equal("00112233445566778899AABBCCDDEEFF", Convert.ToHexString(RowPacking.Ids([id])));
    }
}
