using Broodtide.Domain;
using Broodtide.Workbench.Settling;
using CsCheck;

namespace Broodtide.Workbench.Tests.Settling;

public class CareCodeTests
{
    private const string Letters = "0123456789ABCDEFGHJKMNPQRSTVWXYZ";
    private static readonly Gen<CareCode> Any = Gen.Guid.Select(id => CareCode.Of(new EntryId(id)));

    [Fact]
    public void A_code_is_read_as_it_is_printed_and_as_people_write_it() =>
        Any.Sample(code =>
        {
            Assert.Equal(code, CareCode.Read(code.Text));
            Assert.Equal(code, CareCode.Read(code.Text.ToLowerInvariant().Replace('-', ' ')));
            Assert.Equal(code, CareCode.Read(code.Text.Replace('0', 'O').Replace('1', 'l')));
        });

    [Fact]
    public void One_wrong_letter_anywhere_is_refused() =>
        Gen.Select(Any, Gen.Int[0, 11], Gen.Int[1, 31])
            .Sample(
                (code, at, by) =>
                {
                    if (code.Text[at] == '-')
                    {
                        return;
                    }

                    var letters = code.Text.ToCharArray();
                    letters[at] = Letters[(Letters.IndexOf(letters[at], StringComparison.Ordinal) + by) % 32];
                    Assert.Null(CareCode.Read(new string(letters)));
                }
            );

    [Fact]
    public void Two_neighbours_exchanged_are_refused() =>
        Gen.Select(Any, Gen.Int[0, 6])
            .Sample(
                (code, at) =>
                {
                    var letters = code.Text.Replace("-", "", StringComparison.Ordinal).ToCharArray();
                    if (letters[at] == letters[at + 1])
                    {
                        return;
                    }

                    (letters[at], letters[at + 1]) = (letters[at + 1], letters[at]);
                    Assert.Null(CareCode.Read(new string(letters)));
                }
            );

    [Theory]
    [InlineData(null)]
    [InlineData("")]
    [InlineData("7Q4M")]
    [InlineData("UUUU-UUUU-UU")]
    [InlineData("0000-0000-000")]
    public void What_is_no_code_is_refused(string? text) => Assert.Null(CareCode.Read(text));
}
