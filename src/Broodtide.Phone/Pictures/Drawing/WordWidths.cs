namespace Broodtide.Phone.Pictures;

/// <summary>
/// How wide words are in the app's own font, from its advance widths (measured once in a browser from the font
/// files beside this app, in thousandths of the size). Figures are counted as all equally wide. A character that is
/// not listed counts 0.55 of the size.
/// </summary>
public static class WordWidths
{
    public static double Of(string text, string cssClass, double size = 12)
    {
        var table =
            cssClass.Contains("pic-bold", StringComparison.Ordinal) ? Bold
            : cssClass.Contains("pic-slant", StringComparison.Ordinal) ? Italic
            : Regular;
        var sum = 0;
        foreach (var letter in text)
        {
            sum +=
                char.IsAsciiDigit(letter) ? 620
                : letter is >= ' ' and <= '~' ? table[letter - ' ']
                : letter is '–' ? 505
                : 550;
        }

        return sum * size / 1000;
    }

    private static readonly short[] Regular = Parsed(
        """
        270 271 451 706 617 1020 696 272 389 389 463 697 271 404 271 484 617 617 580 580 617
        580 580 617 580 580 271 271 697 697 697 512 945 629 621 645 631 563 541 679 666 376
        432 617 507 778 677 666 577 666 604 599 578 686 598 858 590 560 568 393 484 393 607
        500 530 537 573 503 573 528 309 573 568 250 262 512 258 836 568 565 573 573 396 484
        356 568 492 720 494 508 456 477 416 477 697
        """
    );

    private static readonly short[] Italic = Parsed(
        """
        265 266 442 657 605 1000 634 267 381 381 454 697 266 396 266 474 605 605 568 568 605
        568 568 605 568 568 266 266 697 697 697 502 926 616 609 625 618 552 530 665 653 368
        423 605 497 762 663 653 565 653 592 587 566 672 586 841 578 549 557 385 474 385 553
        500 519 562 562 493 562 517 303 562 557 245 257 502 253 819 557 554 562 562 388 474
        349 557 482 706 484 498 447 467 416 467 683
        """
    );

    private static readonly short[] Bold = Parsed(
        """
        240 285 477 686 625 1056 692 268 418 418 445 697 285 384 285 506 625 625 588 588 625
        588 588 625 588 588 285 285 697 697 697 523 952 653 634 651 641 561 539 691 688 426
        451 625 507 814 689 666 605 666 627 600 588 702 607 895 628 580 560 373 506 373 635
        500 510 556 594 517 594 558 322 594 594 268 275 537 268 874 594 581 594 594 410 501
        361 594 508 764 527 530 454 447 391 447 677
        """
    );

    // From the space to the tilde, in the order of their codes.
    private static short[] Parsed(string widths) =>
        [.. widths.Split([' ', '\n'], StringSplitOptions.RemoveEmptyEntries).Select(short.Parse)];
}
